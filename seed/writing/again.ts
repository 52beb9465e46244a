import type { Book, SheetCell, Written } from "../site";
import { dayFirst } from "./days";
import { delimited } from "./table";

/**
 * The same month in another file: a workbook's first sheet saved as text under another name, or a text saved once
 * more.
 */
export function copyOf(log: Written): Written {
  const [stem = ""] = log.name.split(".");
  if ("text" in log) return { ...log, name: `${stem} (1).csv`, text: `${log.text}\r\n` };
  const rows = log.sheets[0]?.rows ?? [];
  const plain = rows.map((row) => row.map((cell): SheetCell => (isDay(cell) ? dayFirst(cell.day, "/") : cell)));
  return { name: `${stem} copy.csv`, text: delimited(plain, ","), encoding: "utf-8", truth: log.truth };
}

function isDay(cell: SheetCell): cell is { readonly day: string } {
  return cell !== null && typeof cell === "object";
}

/** The month sent again with the dried weights of some days put right. */
export function corrected(book: Book, days: number): Written {
  const every = Math.max(1, Math.floor(book.days.length / (days + 1)));
  const right = book.days.map((day, at) =>
    at % every === every - 1 && at < every * days
      ? {
          ...day,
          loads: day.loads.map((load, of) => (of === 0 ? { ...load, driedSteps: load.driedSteps - 30 } : load)),
        }
      : day,
  );
  const log = book.site.write({ ...book, days: right });
  const [stem = "", ending = ""] = log.name.split(".");
  return { ...log, name: `${stem} corrigé.${ending}` };
}
