import { type SQL, sql } from "drizzle-orm";

const TYPES = { date: sql`date`, text: sql`text`, uuid: sql`uuid` } as const;

/** Values as a sub-select to be searched with `in`, however many: the two drivers pass arrays differently, JSON alike. */
export function listed(values: readonly string[], type: keyof typeof TYPES): SQL {
  return sql`(select listed::${TYPES[type]} from jsonb_array_elements_text(${JSON.stringify(values)}::jsonb) as listed)`;
}
