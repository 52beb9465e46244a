import { answerSandboxed } from "#server/api/request";
import { asSignedIn } from "../../../posted";

interface Context {
  readonly params: Promise<{ readonly file: string }>;
}

/** The bytes as they came, to be kept and never to be opened in place: no name and no kind of the sender's. */
export function GET(_request: Request, { params }: Context): Promise<Response> {
  return asSignedIn(async (api) => {
    const { file } = await params;
    const { bytes, sha256 } = await api.logs.original({ file });
    answerSandboxed();
    return new Response(Uint8Array.from(bytes), {
      headers: {
        "content-type": "application/octet-stream",
        "content-disposition": `attachment; filename="${sha256}.bin"`,
      },
    });
  });
}
