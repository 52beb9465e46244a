import { isUtf8 } from "node:buffer";

const DEEPEST = 64;
const LONGEST_TAG = 65_536;
const COLON = 58;

/**
 * Walks through the tags of a part, one at a time, and stops for good at the first thing that is not well formed.
 *
 * Names are without their prefix. Whoever walks asks `broken` at the end: null when everything was in order. A document
 * type is never read, so there are no entities but the five of XML and characters by number. Work is linear.
 */
export class XmlWalk {
  /** name of the tag walked onto, without prefix */
  name = "";
  /** the tag ends an element */
  closes = false;
  /** the element begins and ends with this tag */
  empty = false;
  broken: string | null = null;

  readonly #xml: string;
  #at = 0;
  #textFrom = 0;
  #textTo = 0;
  #carried = "";
  readonly #open: string[] = [];
  /** where the names and values of the tag's attributes begin and end, four places each */
  readonly #attributes: number[] = [];
  #attributeCount = 0;

  constructor(bytes: Uint8Array) {
    const mark = bytes[0] === 0xef && bytes[1] === 0xbb && bytes[2] === 0xbf ? 3 : 0;
    // One byte a character keeps the walk quick and small; texts beyond ASCII are put together where they are asked for.
    this.#xml = Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength).toString("latin1", mark);
    if (!isUtf8(bytes)) this.broken = "not UTF-8";
  }

  fail(why: string): void {
    this.broken ??= why;
  }

  /** Text between the tag before and this one. */
  text(): string {
    const between = this.#decoded(this.#xml.slice(this.#textFrom, this.#textTo));
    return this.#carried === "" ? between : this.#carried + between;
  }

  /** Value of an attribute by its name without prefix; null when the tag has none. */
  attribute(name: string): string | null {
    const places = this.#attributes;
    for (let i = 0; i < this.#attributeCount; i += 4) {
      const from = places[i + 1]! - name.length;
      if (from < places[i]! || !this.#xml.startsWith(name, from)) continue;
      if (from > places[i]! && this.#xml.charCodeAt(from - 1) !== COLON) continue;
      return this.#decoded(this.#xml.slice(places[i + 2]!, places[i + 3]!));
    }
    return null;
  }

  /** Walks onto the next tag; false at the end of the part or when something is broken. */
  next(): boolean {
    const xml = this.#xml;
    this.#carried = "";
    this.#textFrom = this.#at;
    while (this.broken === null) {
      const start = xml.indexOf("<", this.#at);
      if (start === -1) {
        if (this.#open.length > 0 || this.name === "") this.fail("ends too early");
        return false;
      }
      const second = xml.charCodeAt(start + 1);
      if (second === 33 || second === 63) {
        this.#skip(start);
        continue;
      }
      this.#textTo = start;
      return second === 47 ? this.#close(start) : this.#begin(start);
    }
    return false;
  }

  /** Passes over a comment, an instruction or marked text; marked text is carried on to the next tag. */
  #skip(start: number): void {
    const xml = this.#xml;
    const [end, length] = xml.startsWith("<!--", start)
      ? [xml.indexOf("-->", start + 4), 3]
      : xml.startsWith("<![CDATA[", start)
        ? [xml.indexOf("]]>", start + 9), 3]
        : xml.startsWith("<?", start)
          ? [xml.indexOf("?>", start + 2), 2]
          : [-1, 0];
    if (end === -1) {
      this.fail(xml.startsWith("<!DOCTYPE", start) ? "DOCTYPE" : "unclosed mark");
      return;
    }
    this.#carried += this.#decoded(xml.slice(this.#textFrom, start));
    if (xml.startsWith("<![", start)) this.#carried += fromUtf8(xml.slice(start + 9, end));
    this.#at = end + length;
    this.#textFrom = this.#at;
  }

  #close(start: number): boolean {
    const whole = this.#open.pop() ?? "";
    let end = start + 2 + whole.length;
    while (isSpace(this.#xml.charCodeAt(end))) end++;
    if (whole === "" || this.#xml.charCodeAt(end) !== 62 || !this.#xml.startsWith(whole, start + 2)) {
      return this.#stop(`${this.#xml.slice(start, start + 40)} closes nothing`);
    }
    this.name = withoutPrefix(whole);
    this.closes = true;
    this.empty = false;
    this.#attributeCount = 0;
    this.#at = end + 1;
    return true;
  }

  #begin(start: number): boolean {
    const xml = this.#xml;
    let at = start + 1;
    while (!endsName(xml.charCodeAt(at))) at++;
    const whole = xml.slice(start + 1, at);
    if (whole === "") return this.#stop("tag without a name");
    this.#attributeCount = 0;
    let empty = false;
    while (true) {
      let code = xml.charCodeAt(at);
      if (code === 62) break;
      if (code === 47) {
        if (xml.charCodeAt(at + 1) !== 62) return this.#stop("stray /");
        empty = true;
        at++;
        break;
      }
      if (isSpace(code)) {
        at++;
        continue;
      }
      const nameFrom = at;
      while (!endsName(code) && code !== 61) code = xml.charCodeAt(++at);
      const nameTo = at;
      while (isSpace(code)) code = xml.charCodeAt(++at);
      if (code !== 61) return this.#stop("attribute without a value");
      code = xml.charCodeAt(++at);
      while (isSpace(code)) code = xml.charCodeAt(++at);
      if (code !== 34 && code !== 39) return this.#stop("attribute without quotes");
      const end = xml.indexOf(code === 34 ? '"' : "'", at + 1);
      if (end === -1 || end - start > LONGEST_TAG) return this.#stop("tag too long");
      this.#attributes[this.#attributeCount++] = nameFrom;
      this.#attributes[this.#attributeCount++] = nameTo;
      this.#attributes[this.#attributeCount++] = at + 1;
      this.#attributes[this.#attributeCount++] = end;
      at = end + 1;
    }
    const next = xml.indexOf("<", start + 1);
    if (next !== -1 && next < at) return this.#stop("< inside a tag");
    if (!empty) {
      if (this.#open.length >= DEEPEST) return this.#stop("too deep");
      this.#open.push(whole);
    }
    this.name = withoutPrefix(whole);
    this.closes = false;
    this.empty = empty;
    this.#at = at + 1;
    return true;
  }

  #stop(why: string): false {
    this.fail(why);
    return false;
  }

  #decoded(raw: string): string {
    if (!/[&\r\x80-\xff]/.test(raw)) return raw;
    const lines = raw.includes("\r") ? raw.replace(/\r\n?/g, "\n") : raw;
    const wide = fromUtf8(lines);
    if (!wide.includes("&")) return wide;
    return wide.replace(/&([^;&]{0,12})(;?)/g, (whole, name: string, end: string) => {
      const character = end === ";" ? entity(name) : null;
      if (character === null) this.fail(`${whole} is no character`);
      return character ?? whole;
    });
  }
}

function entity(name: string): string | null {
  const named = { amp: "&", lt: "<", gt: ">", quot: '"', apos: "'" };
  for (const [known, character] of Object.entries(named)) if (known === name) return character;
  const digits = /^#(?:x([0-9a-f]{1,6})|(\d{1,7}))$/i.exec(name);
  if (digits === null) return null;
  const code = digits[1] !== undefined ? Number.parseInt(digits[1], 16) : Number(digits[2]);
  if (code === 0 || code > 0x10ffff || (code >= 0xd800 && code <= 0xdfff)) return null;
  return String.fromCodePoint(code);
}

function fromUtf8(bytes: string): string {
  return /[\x80-\xff]/.test(bytes) ? Buffer.from(bytes, "latin1").toString("utf8") : bytes;
}

function withoutPrefix(name: string): string {
  const colon = name.indexOf(":");
  return colon === -1 ? name : name.slice(colon + 1);
}

function isSpace(code: number): boolean {
  return code === 32 || code === 10 || code === 13 || code === 9;
}

/** Space, "/", ">" or the end of the part. */
function endsName(code: number): boolean {
  return code <= 32 || code === 47 || code === 62 || Number.isNaN(code);
}

/** A yes-or-no attribute. */
export function isTrue(attribute: string | null): boolean {
  return attribute === "1" || attribute === "true";
}
