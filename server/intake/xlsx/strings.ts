import { XmlWalk } from "./xml";

/** The texts that cells share, in their order. Formatting runs are joined; readings above the text are left out. */
export function sharedTexts(bytes: Uint8Array): { readonly texts: string[]; readonly broken: string | null } {
  const walk = new XmlWalk(bytes);
  const texts: string[] = [];
  let text = "";
  let phonetic = false;
  while (walk.next()) {
    if (walk.name === "si") {
      if (walk.closes || walk.empty) texts.push(text);
      text = "";
    } else if (walk.name === "rPh") phonetic = !walk.closes && !walk.empty;
    else if (walk.name === "t" && walk.closes && !phonetic) text += asWritten(walk.text());
  }
  return { texts, broken: walk.broken };
}

/** Characters that XML cannot hold are written "_x000D_". Source: ECMA-376 part 1, 22.9.2.19. */
export function asWritten(text: string): string {
  if (!text.includes("_x")) return text;
  return text.replace(/_x([0-9A-Fa-f]{4})_/g, (_, hex: string) => String.fromCharCode(Number.parseInt(hex, 16)));
}
