import { createHmac, randomBytes, timingSafeEqual } from 'node:crypto';

/** A message of the Jupyter messaging protocol, version 5.3. */
export interface WireMessage {
  readonly header: { readonly msg_id: string; readonly msg_type: string };
  readonly parent_header: { readonly msg_id?: string };
  readonly metadata: Readonly<Record<string, unknown>>;
  readonly content: Readonly<Record<string, unknown>>;
}

const DELIMITER = '<IDS|MSG>';

/**
 * A signed request, in frames.
 *
 * @param key - of the connection
 * @param session - id of this client
 * @param type - such as `execute_request`
 * @param content - of the message
 * @returns frames to send, and the id of the message
 */
export function packRequest(
  key: string,
  session: string,
  type: string,
  content: object,
): { readonly frames: string[]; readonly id: string } {
  const id = randomBytes(16).toString('hex');
  const date = new Date().toISOString();
  const header = { msg_id: id, session, username: 'halfmax', date, msg_type: type, version: '5.3' };
  const parts = [header, {}, {}, content].map((part) => JSON.stringify(part));
  return { frames: [DELIMITER, sign(key, parts).toString('hex'), ...parts], id };
}

/**
 * A message from its frames.
 *
 * @param key - of the connection
 * @param frames - as received
 * @returns the message
 * @throws {Error} no message, or one whose signature is wrong
 */
export function unpackMessage(key: string, frames: readonly Buffer[]): WireMessage {
  const at = frames.findIndex((frame) => frame.toString('latin1') === DELIMITER);
  if (at < 0 || frames.length < at + 6) throw new Error('a kernel sent what is no message');
  const parts = frames.slice(at + 2, at + 6);
  const claimed = Buffer.from(frames[at + 1]!.toString('latin1'), 'hex');
  const right = sign(key, parts);
  if (claimed.length !== right.length || !timingSafeEqual(claimed, right))
    throw new Error('a message of the kernel is not signed with its key');
  const [header, parent_header, metadata, content] = parts.map((part) => JSON.parse(part.toString('utf8')));
  return { header, parent_header, metadata, content } as WireMessage;
}

function sign(key: string, parts: readonly (string | Buffer)[]): Buffer {
  const hash = createHmac('sha256', key);
  for (const part of parts) hash.update(part);
  return hash.digest();
}
