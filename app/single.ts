type Asked = Readonly<Record<string, string | readonly string[] | undefined>>;

/** What an address asks, where whoever wrote it asked a thing twice: the first time counts. */
export function single(asked: Asked): Readonly<Record<string, string | undefined>> {
  return Object.fromEntries(
    Object.entries(asked).map(([name, said]) => [name, typeof said === "object" ? said[0] : said]),
  );
}
