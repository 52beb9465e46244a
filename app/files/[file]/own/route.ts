import { answerSandboxed } from "#server/api/request";
import { asSignedIn } from "../../../posted";

interface Context {
  readonly params: Promise<{ readonly file: string }>;
}

/** Of a log of the programme the rows of one site, under a neutral name. */
export function GET(request: Request, { params }: Context): Promise<Response> {
  return asSignedIn(async (api) => {
    const { file } = await params;
    const site = new URL(request.url).searchParams.get("site") ?? "";
    const { csv, code } = await api.sent.ownRows({ file, site });
    answerSandboxed();
    return new Response(csv, {
      headers: {
        "content-type": "text/csv; charset=utf-8",
        "content-disposition": `attachment; filename="${code}-rows.csv"`,
      },
    });
  });
}
