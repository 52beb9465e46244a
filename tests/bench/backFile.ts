/**
 * A back-file as bytes: so many rows with a site column, sites in turn day by day, ten loads a site and day; of one site
 * without the column. `from` moves the days, so that no two files speak of the same batches.
 */
export function backFile(count: number, sites: number, from = 0): Buffer {
  const parts: string[] = [
    `${sites > 1 ? "Site," : ""}Date,Batch no,Pan,Fresh (kg),Dried (kg),Minutes,Charcoal (kg),Remarks\n`,
  ];
  let lines: string[] = [];
  for (let i = 0; i < count; i++) {
    const load = i % 10;
    const site = Math.floor(i / 10) % sites;
    const day = new Date(Date.UTC(2000 + from, 0, 1) + Math.floor(i / (10 * sites)) * 86_400_000);
    const fresh = 3 + ((i * 37) % 97) / 50;
    const dried = (fresh * (0.3 + ((i * 17) % 53) / 1000)).toFixed(3);
    const cells = [
      day.toISOString().slice(0, 10),
      load + 1,
      1 + (load % 3),
      fresh.toFixed(2),
      dried,
      20 + (i % 9),
      "0.5",
    ];
    lines.push(`${sites > 1 ? `${siteCode(site)},` : ""}${cells.join(",")},${i % 11 === 0 ? "rain from noon" : ""}\n`);
    if (lines.length === 10_000) {
      parts.push(lines.join(""));
      lines = [];
    }
  }
  return Buffer.from([...parts, ...lines].join(""));
}

export function siteCode(site: number): string {
  return `S${String(site).padStart(3, "0")}`;
}
