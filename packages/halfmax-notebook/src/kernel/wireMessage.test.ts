import { createHmac } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { packRequest, unpackMessage } from './wireMessage.js';

const key = 'k'.repeat(64);

describe('messages on the wire', () => {
  // Jupyter messaging protocol 5.3, "The wire protocol": HMAC over header, parent header, metadata and content.
  it('are signed as the protocol says', () => {
    const { frames } = packRequest(key, 's', 'execute_request', { code: '1' });
    const [delimiter, signature, ...parts] = frames;
    expect(delimiter).toBe('<IDS|MSG>');
    expect(parts).toHaveLength(4);
    expect(signature).toBe(createHmac('sha256', key).update(parts.join('')).digest('hex'));
  });

  it('are read back, whatever stands before the delimiter', () => {
    const { frames, id } = packRequest(key, 's', 'execute_request', { code: 'µ' });
    const bytes = ['who', ...frames].map((frame) => Buffer.from(frame));
    const message = unpackMessage(key, bytes);
    expect(message.header).toMatchObject({ msg_id: id, msg_type: 'execute_request' });
    expect(message.content).toEqual({ code: 'µ' });
  });

  it('are refused when a byte of them was changed, when signed with another key, and when cut short', () => {
    const bytes = packRequest(key, 's', 'x', { a: 1 }).frames.map((frame) => Buffer.from(frame));
    for (const [i, part] of bytes.entries()) {
      if (i === 0) continue;
      const changed = bytes.map((frame) => Buffer.from(frame));
      changed[i] = Buffer.concat([part.subarray(0, -1), Buffer.from([part.at(-1)! ^ 1])]);
      expect(() => unpackMessage(key, changed)).toThrow(/not signed/);
    }
    expect(() => unpackMessage('other', bytes)).toThrow(/not signed/);
    expect(() => unpackMessage(key, bytes.slice(0, 5))).toThrow(/no message/);
  });
});
