/** What is kept as a picture of a log, to be typed by a person. */
export const PICTURE_KINDS = ["jpeg", "png", "webp", "heic", "pdf"] as const;
export type PictureKind = (typeof PICTURE_KINDS)[number];

/** Brands of the container in which phones keep HEIC pictures (ISO/IEC 23008-12, annex B). */
const HEIC_BRANDS = ["heic", "heix", "heim", "heis", "hevc", "hevx", "mif1", "msf1"];

/** Which kind of picture these bytes are, by their content alone; null for everything else, GIF, TIFF and SVG among it. */
export function pictureKind(bytes: Uint8Array): PictureKind | null {
  const starts = (...start: readonly number[]) => start.every((byte, at) => bytes[at] === byte);
  const says = (from: number, to: number) => String.fromCharCode(...bytes.subarray(from, to));
  if (starts(0xff, 0xd8, 0xff)) return "jpeg";
  if (starts(0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a)) return "png";
  if (says(0, 4) === "RIFF" && says(8, 12) === "WEBP") return "webp";
  if (says(4, 8) === "ftyp" && HEIC_BRANDS.includes(says(8, 12))) return "heic";
  return says(0, 5) === "%PDF-" ? "pdf" : null;
}
