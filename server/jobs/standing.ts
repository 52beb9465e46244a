import type { KnownBatch } from "#db/queries/batches";
import type { Batch } from "#server/terms/batch";
import type { BatchPlan } from "./planBatches";

/** The batches that stand while a log is planned: those known before and those revised, less those taken out. */
export class Standing {
  private readonly known: ReadonlyMap<string, { readonly batch: Batch; readonly file: string }>;
  private readonly revised: BatchPlan["revised"];
  private readonly out = new Set<string>();

  constructor(known: readonly KnownBatch[], revised: BatchPlan["revised"]) {
    this.known = new Map(known.map(({ batch, file }) => [batch.id, { batch, file: file ?? "" }]));
    this.revised = revised;
  }

  isOut(id: string): void {
    this.out.add(id);
  }

  stands(id: string): void {
    this.out.delete(id);
  }

  has(id: string): boolean {
    return this.get(id) !== undefined;
  }

  get(id: string): { readonly batch: Batch; readonly file: string } | undefined {
    if (this.out.size > 0 && this.out.has(id)) return undefined;
    return this.revised.get(id) ?? this.known.get(id);
  }

  /** Those known before first, then new ones as they were made. */
  all(): { id: string; batch: Batch; from: string }[] {
    const found: { id: string; batch: Batch; from: string }[] = [];
    const add = (id: string) => {
      const one = this.get(id);
      if (one !== undefined) found.push({ id, batch: one.batch, from: one.file });
    };
    for (const id of this.known.keys()) add(id);
    for (const id of this.revised.keys()) if (!this.known.has(id)) add(id);
    return found;
  }
}
