import type { Api } from "#server/api/request";
import { reasonInWords } from "../../_words/problems";
import { asSignedIn, complaintOf } from "../../posted";

type Csv = Parameters<Api["evidence"]["allCsv"]>[0];

const XLSX = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet";

/** One evidence table as CSV, or all of them as a workbook: to be kept, never opened in place. */
export function GET(request: Request): Promise<Response> {
  const asked = Object.fromEntries(new URL(request.url).searchParams);
  const { site = "all", from = "", to = from, known = "", table = "", as = "csv" } = asked;
  const scope = { from, to, ...(known === "" ? {} : { asOf: known }), sentence: reasonInWords };
  return asSignedIn(async ({ evidence }) => {
    try {
      if (as === "xlsx") {
        const { name, bytes } = await (site === "all"
          ? evidence.allWorkbook(scope)
          : evidence.siteWorkbook({ site, ...scope }));
        return new Response(Uint8Array.from(bytes), { headers: headersFor(name, XLSX) });
      }
      const one = { ...scope, table: table as Csv["table"] }; // the procedure refuses what is no table
      const { name, pieces } = await (site === "all" ? evidence.allCsv(one) : evidence.siteCsv({ site, ...one }));
      return new Response(streamed(pieces), { headers: headersFor(name, "text/csv; charset=utf-8; header=present") });
    } catch (trouble) {
      const complaint = complaintOf(trouble);
      if (complaint === null) throw trouble;
      return new Response(`${complaint}\n`, { status: 400 });
    }
  });
}

function headersFor(name: string, type: string): HeadersInit {
  return {
    "content-type": type,
    "content-disposition": `attachment; filename="${name}"`,
    "content-security-policy": "sandbox; default-src 'none'",
  };
}

/** Pieces as they are read; a reader who goes away ends the reading, and trouble cuts the answer short for all to see. */
function streamed(pieces: AsyncGenerator<string>): ReadableStream<Uint8Array> {
  const encoder = new TextEncoder();
  return new ReadableStream({
    async pull(out) {
      const { done, value } = await pieces.next();
      if (done) out.close();
      else out.enqueue(encoder.encode(value));
    },
    async cancel() {
      await pieces.return(undefined);
    },
  });
}
