import { WrongCall } from "./command";

/** An option's number; a wrong call where it is none. */
export function finite(text: string, option: string): number {
  const value = Number(text);
  if (text.trim() === "" || !Number.isFinite(value)) throw new WrongCall(`--${option} is a number, not ${text}.`);
  return value;
}

export function positive(text: string | undefined, option: string): number {
  const value = finite(text ?? "", option);
  if (value <= 0) throw new WrongCall(`--${option} is more than 0, not ${text}.`);
  return value;
}

/** An option's number from `from` to `to`, both in. */
export function between(text: string, option: string, from: number, to: number): number {
  const value = finite(text, option);
  if (value < from || value > to) throw new WrongCall(`--${option} is from ${from} to ${to}, not ${text}.`);
  return value;
}
