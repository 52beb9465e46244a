import { crc32, deflateRawSync } from "node:zlib";

/** One part of an archive to be made; the last fields tell what its headings falsely say. */
export interface PartMade {
  readonly name: string;
  readonly content: string | Uint8Array;
  readonly stored?: boolean;
  readonly method?: number;
  readonly flags?: number;
  readonly crc?: number;
  readonly unpacked?: number;
  readonly localName?: string;
}

/** Makes a ZIP archive by hand, so that a test can say of each field what it likes. */
export function archiveOf(parts: readonly PartMade[], comment = ""): Uint8Array {
  const locals: Buffer[] = [];
  const entries: Buffer[] = [];
  let at = 0;
  for (const part of parts) {
    const content = typeof part.content === "string" ? Buffer.from(part.content) : Buffer.from(part.content);
    const packed = part.stored ? content : deflateRawSync(content);
    const common = Buffer.alloc(26);
    common.writeUInt16LE(20, 0);
    common.writeUInt16LE(part.flags ?? 0, 2);
    common.writeUInt16LE(part.method ?? (part.stored ? 0 : 8), 4);
    common.writeUInt32LE(part.crc ?? crc32(content), 10);
    common.writeUInt32LE(packed.length, 14);
    common.writeUInt32LE(part.unpacked ?? content.length, 18);
    const localName = Buffer.from(part.localName ?? part.name);
    common.writeUInt16LE(localName.length, 22);
    const local = Buffer.concat([Buffer.from("PK\u0003\u0004"), common, localName, packed]);
    const name = Buffer.from(part.name);
    const tail = Buffer.alloc(14);
    tail.writeUInt32LE(at, 10);
    common.writeUInt16LE(name.length, 22);
    entries.push(Buffer.concat([Buffer.from("PK\u0001\u0002\u0014\u0000"), common, tail, name]));
    locals.push(local);
    at += local.length;
  }
  const directory = Buffer.concat(entries);
  const end = Buffer.alloc(22);
  end.write("PK\u0005\u0006", "latin1");
  end.writeUInt16LE(parts.length, 8);
  end.writeUInt16LE(parts.length, 10);
  end.writeUInt32LE(directory.length, 12);
  end.writeUInt32LE(at, 16);
  end.writeUInt16LE(comment.length, 20);
  return Buffer.concat([...locals, directory, end, Buffer.from(comment)]);
}
