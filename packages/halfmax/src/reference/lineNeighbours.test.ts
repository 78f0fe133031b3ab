import { describe, expect, it } from 'vitest';
import { emissionLines } from './emissionLines.js';
import { lineNeighbours } from './lineNeighbours.js';

const beside = (name: string): string[] =>
  lineNeighbours(emissionLines.find((line) => line.name === name)!).map((line) => line.name);

describe('lineNeighbours', () => {
  it('puts [N II] beside H-alpha and H-alpha beside [N II]', () => {
    expect(beside('H-alpha')).toEqual(['[N II] 654.8', '[N II] 658.3']);
    expect(beside('[N II] 658.3')).toEqual(['[N II] 654.8', 'H-alpha']);
  });

  it('gives the partner of a doublet', () => {
    expect(beside('[O III] 500.7')).toEqual(['[O III] 495.9']);
    expect(beside('[S II] 671.6')).toEqual(['[S II] 673.1']);
  });

  it('is empty for a line that stands alone', () => expect(beside('He II')).toEqual([]));
});
