import type { Role } from "./person";

/** Why a log says something else than an earlier one: a reason of the list, or "other" in own words. */
export const WHYS = ["late", "misread", "unit", "scale", "twice", "other"] as const;
export interface Why {
  readonly reason: (typeof WHYS)[number];
  /** in own words; empty where nothing was added */
  readonly words: string;
}

/** Somebody, as far as whoever asks may know: the name is null where it may not be seen or was erased. */
export interface Who {
  readonly self: boolean;
  readonly name: string | null;
  readonly role: Role | null;
}

/** What became of some rows that needed an answer. */
export interface SettledRows {
  readonly fate: "counted" | "set-aside";
  /** "joined": a later log brought what they lacked */
  readonly how: "answered" | "joined";
  readonly by: Who;
  readonly at: string;
  readonly rows: number;
}

/** A log in the history of what was sent. */
export interface SentLog {
  readonly file: string;
  /** what its sending slip is called */
  readonly code: string;
  /** code of the site; null for a log of the programme */
  readonly site: string | null;
  /** false: a log of the programme of which the person may see the own rows alone */
  readonly whole: boolean;
  readonly name: string | null;
  readonly sha256: string | null;
  readonly bytes: number | null;
  readonly sentBy: Who;
  readonly arrivedAt: string;
  readonly claimedAt: string | null;
  readonly cameBy: string;
  readonly ledgerIndex: number;
  readonly state: "arrived" | "read" | "settled" | "counted" | "withdrawn";
  /** null: no picture */
  readonly typing: "waiting" | "typed" | null;
  readonly takenBackWhy: string | null;
  /** it is taken back part by part, and not all of it is */
  readonly takenBackInPart: boolean;
  readonly rows: { readonly rows: number; readonly counted: number; readonly held: number; readonly setAside: number };
  /** rows that needed an answer at some time */
  readonly everHeld: number;
  readonly settled: readonly SettledRows[];
}

/** Something that was done with a log. */
export interface Deed {
  readonly deed:
    | "arrived"
    | "read"
    | "settled"
    | "counted-in-part"
    | "counted"
    | "counted-again"
    | "withdrawn-in-part"
    | "withdrawn";
  readonly at: string;
  readonly by: Who;
  readonly ledgerIndex: number;
  /** why it was taken back */
  readonly reason: string | null;
  /** why it says something else than an earlier log */
  readonly why: Why | null;
}
