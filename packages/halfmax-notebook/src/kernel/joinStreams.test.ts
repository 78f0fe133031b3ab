import { describe, expect, it, vi } from 'vitest';
import { joinStreams } from './joinStreams.js';

describe('joinStreams', () => {
  it('joins what follows each other on one stream, and keeps the order between streams', () => {
    const sent: string[] = [];
    const streams = joinStreams(
      (name, text) => sent.push(`${name} ${text}`),
      () => 0,
    );
    for (const text of ['a', 'b']) streams.write('stdout', text);
    streams.write('stderr', 'c');
    streams.write('stdout', 'd');
    streams.flush();
    streams.flush();
    expect(sent).toEqual(['stdout ab', 'stderr c', 'stdout d']);
  });

  it('does not let much or old text wait, and sends the rest by itself', () => {
    vi.useFakeTimers();
    const sent: number[] = [];
    let now = 0;
    const streams = joinStreams(
      (_, text) => sent.push(text.length),
      () => now,
    );
    streams.write('stdout', 'x'.repeat(70_000));
    expect(sent).toEqual([70_000]);
    streams.write('stdout', 'y');
    now = 150;
    streams.write('stdout', 'z');
    expect(sent).toEqual([70_000, 2]);
    streams.write('stdout', 'w');
    vi.advanceTimersByTime(100);
    expect(sent).toEqual([70_000, 2, 1]);
    vi.useRealTimers();
  });
});
