import { Complaints, Field, Submit, type Wrong } from "../_parts/Form";

/** Takes a log whose rows name their sites; what was understood of it is shown before anything counts. */
export function SendBySite({ wrong }: { readonly wrong: Wrong }) {
  return (
    <section aria-labelledby="by-site">
      <h2 id="by-site">Send a log of several sites</h2>
      <Complaints wrong={wrong} />
      <form method="post" action="/files/arrive" encType="multipart/form-data">
        <Field
          id="log"
          label="The log"
          hint="A sheet with a column that names the site of each row, by its code or its name. Every site gets its own rows."
          wrong={wrong.log}
        >
          {(given) => <input {...given} type="file" accept=".xlsx,.csv,.tsv,.txt,text/csv" required />}
        </Field>
        <p>
          <Submit>Look at it first</Submit>
        </p>
      </form>
    </section>
  );
}
