/** What a page says while the logs of the demo are still being sent; null where nothing is on its way. */
export function arrivingInWords(arriving: { readonly done: number; readonly of: number } | null): string | null {
  if (arriving === null) return null;
  const { done, of } = arriving;
  return `The demo is still arriving: ${done} of ${of} logs and declarations are here. Load the page again to see more.`;
}
