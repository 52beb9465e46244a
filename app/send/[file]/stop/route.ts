import { goTo } from "../../../note";
import { asSignedIn, formOf, textsOf } from "../../../posted";

interface Context {
  readonly params: Promise<{ readonly file: string }>;
}

/** Stops the reading or counting of a log, and leads to where it can be read again. */
export function POST(request: Request, { params }: Context): Promise<Response> {
  return asSignedIn(async (api) => {
    const { file } = await params;
    const { query = "" } = textsOf(await formOf(request));
    await api.logs.stop({ file });
    const asked = new URLSearchParams(query);
    asked.set("stopped", "yes");
    return goTo(`/send/${file}?${asked}`);
  });
}
