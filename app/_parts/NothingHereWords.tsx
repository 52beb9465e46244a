export function NothingHereWords() {
  return (
    <>
      <h1>There is nothing here</h1>
      <p>The address may be mistyped, or what stood here is not yours to see.</p>
      <p>
        <a href="/">Go to the first page</a>
      </p>
    </>
  );
}
