import { goTo } from "../../../note";
import { asSignedIn, formOf, textsOf } from "../../../posted";

interface Context {
  readonly params: Promise<{ readonly file: string }>;
}

export function POST(request: Request, { params }: Context): Promise<Response> {
  return asSignedIn(async (api) => {
    const { file } = await params;
    const { reason = "" } = textsOf(await formOf(request));
    await api.logs.withdraw({ file, reason: reason.trim() === "" ? "no reason given" : reason.trim().slice(0, 300) });
    return goTo(`/files/${file}`);
  });
}
