/** Says that this is Evendry and that it answers; asks nothing of the database. */
export function GET(): Response {
  return new Response("evendry\n");
}
