/** A path of our own house to go on to; anything that could lead elsewhere becomes the first page. */
export function ownPath(path: string | undefined): string {
  return path !== undefined && /^\/(?![/\\])[\w\-/.?=&%~:+]*$/.test(path) ? path : "/";
}
