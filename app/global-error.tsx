"use client";

export default function SomethingBroke() {
  return (
    <html lang="en">
      <body>
        <main>
          <h1>Something broke on our side</h1>
          <p>Nothing that was stored is lost. The machine that serves this page has kept a note of what happened.</p>
          <p>
            <a href="/">Go to the first page</a>
          </p>
        </main>
      </body>
    </html>
  );
}
