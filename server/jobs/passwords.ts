import { randomBytes, randomInt, type ScryptOptions, scrypt, timingSafeEqual } from "node:crypto";

/** OWASP, Password Storage Cheat Sheet: scrypt with N = 2^15, r = 8, p = 3. */
const COST = { N: 2 ** 15, r: 8, p: 3, maxmem: 64 * 2 ** 20 } as const satisfies ScryptOptions;

/** Each sum takes 32 MiB: two at a time, the others wait their turn. */
const AT_ONCE = 2;
let running = 0;
const waiting: (() => void)[] = [];

export async function passwordHash(password: string): Promise<string> {
  const salt = randomBytes(16);
  return [
    "scrypt",
    COST.N,
    COST.r,
    COST.p,
    salt.toString("base64url"),
    (await derived(password, salt)).toString("base64url"),
  ].join("$");
}

/** Whether a password is the one of a hash. Without a hash it takes as long and is false, so that nobody learns who exists. */
export async function isPassword(password: string, hash: string | null): Promise<boolean> {
  const [, , , , salt, key] = (hash ?? "").split("$");
  const right = Buffer.from(key ?? "", "base64url");
  const given = await derived(password, Buffer.from(salt ?? "none", "base64url"));
  return right.length === given.length && timingSafeEqual(right, given) && hash !== null;
}

async function derived(password: string, salt: Buffer): Promise<Buffer> {
  if (running >= AT_ONCE) await new Promise<void>((turn) => waiting.push(turn));
  running++;
  try {
    return await new Promise((resolve, reject) =>
      scrypt(password.normalize("NFKC"), salt, 32, COST, (trouble, key) => (trouble ? reject(trouble) : resolve(key))),
    );
  } finally {
    running--;
    waiting.shift()?.();
  }
}

const LETTERS = "abcdefghjkmnpqrstuvwxyz23456789";

/** A password nobody has to remember: four groups of four letters and digits that are hard to mistake, 79 bits. */
export function newPassword(): string {
  const group = () => Array.from({ length: 4 }, () => LETTERS[randomInt(LETTERS.length)]).join("");
  return [group(), group(), group(), group()].join("-");
}

/** What is wrong with a password somebody chose, as a sentence; null when nothing is. */
export function weakness(password: string, name: string): string | null {
  if (password.length < 8) return "The password is too short: take at least 8 characters.";
  if (password.length > 200) return "The password is too long: take at most 200 characters.";
  if (name.length > 3 && password.toLowerCase().includes(name.toLowerCase()))
    return "The password contains the name. Take another.";
  if (
    new Set(password).size < 4 ||
    COMMON.some((word) => password.toLowerCase().startsWith(word) && password.length < word.length + 4)
  ) {
    return "The password is one of the first that are guessed. Take another.";
  }
  return null;
}

/** Beginnings of the passwords that are guessed first (from memory of published lists). */
const COMMON = [
  "password",
  "passwort",
  "motdepasse",
  "contrasena",
  "12345678",
  "qwertyui",
  "azertyui",
  "iloveyou",
  "abcdefgh",
  "evendry",
  "letmein1",
  "welcome1",
  "11111111",
  "larvae12",
];
