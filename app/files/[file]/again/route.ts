import { goTo } from "../../../note";
import { asSignedIn, complaintOf } from "../../../posted";

interface Context {
  readonly params: Promise<{ readonly file: string }>;
}

/** Brings a log that was taken back in once more, and leads on to looking at it. */
export function POST(_request: Request, { params }: Context): Promise<Response> {
  return asSignedIn(async (api) => {
    const { file } = await params;
    try {
      const again = await api.sent.again({ file });
      return goTo(`/send/${again.file}`);
    } catch (trouble) {
      if (complaintOf(trouble) === null) throw trouble;
      return goTo(`/files/${file}`); // somebody was faster: it stands again
    }
  });
}
