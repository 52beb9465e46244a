import { answerSandboxed } from "#server/api/request";
import { asSignedIn } from "../../../posted";

interface Context {
  readonly params: Promise<{ readonly file: string }>;
}

/** Kinds that a page may show, by the content of the bytes; nothing here comes from the sender's name or type. */
const SHOWN = { jpeg: "image/jpeg", png: "image/png", webp: "image/webp", heic: "image/heic" } as const;

/** A picture, to be shown beside what is typed from it. A PDF is handed over as a file; everything else is not here. */
export function GET(_request: Request, { params }: Context): Promise<Response> {
  return asSignedIn(async (api) => {
    const { file } = await params;
    const { bytes, kind, code } = await api.logs.picture({ file });
    if (kind === null) return new Response("There is no picture here.\n", { status: 404 });
    answerSandboxed();
    return new Response(Uint8Array.from(bytes), {
      headers:
        kind === "pdf"
          ? { "content-type": "application/pdf", "content-disposition": `attachment; filename="${code}.pdf"` }
          : { "content-type": SHOWN[kind], "content-disposition": "inline", "x-content-type-options": "nosniff" },
    });
  });
}
