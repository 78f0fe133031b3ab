import { describe, expect, it } from 'vitest';
import { responseProblems } from './responseProblems.js';

const flat = (from: number, to: number) => [
  [from, 0.5],
  [to, 0.5],
];
const colour = (red: unknown) => ({
  camera: { colour: { red, green: flat(350, 1000), blue: flat(350, 1000) } },
});

describe('responseProblems', () => {
  it.each([
    {},
    { quantumEfficiency: 0.8 },
    // What is seen shrinks to the table where no range is stated.
    { quantumEfficiency: flat(450, 650) },
    { quantumEfficiency: flat(450, 650), rangeNm: [450, 650] },
    colour(flat(400, 700)),
    { ...colour(flat(450, 650)), quantumEfficiency: flat(450, 650) },
    { camera: { colour: true } },
  ])('finds nothing in %j', (site) => expect(responseProblems(site)).toEqual([]));

  it.each([
    [{ quantumEfficiency: flat(650, 450) }, 'site.quantumEfficiency[1]', '450 nm does not follow 650 nm'],
    [colour(flat(350, 340)), 'site.camera.colour.red[1]', '340 nm does not follow 350 nm'],
    [{ rangeNm: [700, 400] }, 'site.rangeNm', 'is 700 to 400'],
    [
      { quantumEfficiency: flat(450, 650), rangeNm: [400, 700] },
      'site.quantumEfficiency',
      'runs from 450 to 650 nm, and rangeNm from 400 to 700 nm',
    ],
    [
      colour(flat(580, 700)),
      'site.camera.colour.red',
      'runs from 580 to 700 nm, and what is seen from 400 to 700 nm',
    ],
    [{ quantumEfficiency: flat(800, 900) }, 'site.quantumEfficiency', 'runs from 800 to 900 nm'],
  ])('refuses %j', (site, place, what) => {
    const [problem, ...more] = responseProblems(site);
    expect(more).toEqual([]);
    expect(problem!.place).toBe(place);
    expect(problem!.what).toContain(what);
  });
});
