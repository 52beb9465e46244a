/** A whole number of 32 bits that follows from a text, or from a part of it: equal texts have equal ones. */
export function hashOf(text: string, from = 0, to = text.length): number {
  let hash = 0;
  for (let at = from; at < to; at++) hash = (Math.imul(hash, 31) + text.charCodeAt(at)) | 0;
  return hash ^ (hash >>> 15);
}
