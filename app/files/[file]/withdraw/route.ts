import { goTo } from "../../../note";
import { asSignedIn, formOf, textsOf } from "../../../posted";
import { countKey } from "../../../send/[file]/waitedFor";
import { patiently, type Waiting, waitNoMore } from "../../../send/patiently";

interface Context {
  readonly params: Promise<{ readonly file: string }>;
}

const takings: Waiting<{ readonly withdrawn: boolean }> = new Map();

/** Takes a log back; where that lasts, the page of the log shows how far it is. */
export function POST(request: Request, { params }: Context): Promise<Response> {
  return asSignedIn(async (api) => {
    const { file } = await params;
    const { reason: said = "" } = textsOf(await formOf(request));
    const reason = said.trim() === "" ? "no reason given" : said.trim().slice(0, 300);
    const key = await countKey(file);
    if ((await api.logs.progress({ file })) === null) waitNoMore(takings, key); // what came of an earlier one
    const done = await patiently(takings, key, () => api.logs.withdraw({ file, reason }));
    return goTo(done === null ? `/send/${file}?undone=yes` : `/files/${file}`);
  });
}
