/** What comes over standard input, cut into frames: bytes that are no frame are passed over, so that the next one is read. */
import { Transform } from 'node:stream';

const HEADER_END = '\r\n\r\n';
/** No header is as long as that, in bytes. */
const LONGEST_HEADER = 8 * 1024;
/** No message is as long as that, in bytes: more cannot be one text. */
const LONGEST_BODY = 512 * 1024 * 1024;

/** Language Server Protocol 3.17, "Header Part": of its fields the length alone is read. */
export function wholeFrames(): Transform {
  let chunks: Buffer[] = [];
  let size = 0;
  /** How many bytes there must be before it is worth looking again. */
  let wanted = 0;

  return new Transform({
    transform(chunk: Buffer, _encoding, done) {
      chunks.push(chunk);
      size += chunk.length;
      if (size < wanted) return done();
      let rest = chunks.length === 1 ? chunk : Buffer.concat(chunks);
      for (;;) {
        const head = rest.indexOf(HEADER_END);
        if (head < 0) {
          rest = rest.subarray(Math.max(0, rest.length - LONGEST_HEADER));
          wanted = 0;
          break;
        }
        const start = head + HEADER_END.length;
        const length = lengthIn(rest.toString('latin1', Math.max(0, head - LONGEST_HEADER), head));
        if (length === null) {
          rest = rest.subarray(start);
          continue;
        }
        wanted = start + length;
        if (rest.length < wanted) break;
        this.push(`Content-Length: ${length}${HEADER_END}`);
        this.push(rest.subarray(start, wanted));
        rest = rest.subarray(wanted);
      }
      chunks = [rest];
      size = rest.length;
      done();
    },
  });
}

function lengthIn(header: string): number | null {
  const digits = /content-length:[ \t]*(\d{1,15})[ \t]*$/im.exec(header.replaceAll('\r', ''))?.[1];
  return digits === undefined || Number(digits) > LONGEST_BODY ? null : Number(digits);
}
