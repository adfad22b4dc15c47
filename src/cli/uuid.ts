/** UUIDs that come from a text, so that the same text always has the same one. */
import { createHash } from 'node:crypto';

/** Chosen once, for what is exported to be ours (RFC 9562, section 6.6). */
export const EXPORTS = 'd46199f6-3746-474c-985b-688b3df63eda';

/** RFC 9562, section 5.5: version 5, by SHA-1. */
export function uuid5(namespace: string, name: string): string {
  const hash = createHash('sha1').update(Buffer.from(namespace.replaceAll('-', ''), 'hex'));
  const bytes = hash.update(name, 'utf8').digest().subarray(0, 16);
  bytes.writeUInt8((bytes.readUInt8(6) & 0x0f) | 0x50, 6);
  bytes.writeUInt8((bytes.readUInt8(8) & 0x3f) | 0x80, 8);
  return bytes.toString('hex').replace(/^(.{8})(.{4})(.{4})(.{4})/, '$1-$2-$3-$4-');
}
