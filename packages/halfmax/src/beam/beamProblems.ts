/** Something wrong in a session's field, as `describeProblem` wants it but for the file. */
export interface FieldProblem {
  readonly place: string;
  readonly what: string;
  readonly fix: string;
}

/**
 * What is wrong with a session's `beam` that a schema cannot say.
 *
 * @param beam - the field as it stands in the file
 * @returns problems, none where all is well
 */
export function beamProblems(beam: Readonly<Record<string, unknown>>): FieldProblem[] {
  const problems: FieldProblem[] = [];
  const range = (name: string, values: unknown): void => {
    if (!Array.isArray(values) || values.length !== 2) return;
    const [low, high] = values as [number, number];
    if (low > high) {
      problems.push({
        place: `beam.${name}`,
        what: `is ${low} to ${high}, the wrong way round`,
        fix: 'write the lower value first',
      });
    }
  };
  range('effectiveIndex', beam['effectiveIndex']);
  range('temperatureNmPerK', beam['temperatureNmPerK']);
  const ratios = Array.isArray(beam['fNumber']) ? beam['fNumber'] : [beam['fNumber']];
  const reducer = (beam['reducer'] as { factor?: unknown } | undefined)?.factor;
  for (const ratio of ratios as unknown[]) {
    if (typeof ratio !== 'number') continue;
    const atSensor = typeof reducer === 'number' ? ratio * reducer : ratio;
    if (Math.min(ratio, atSensor) >= 0.5) continue;
    problems.push({
      place: 'beam.fNumber',
      what: `f/${Math.min(ratio, atSensor)} is faster than light in air can be`,
      fix: 'give a focal ratio of 0.5 or more',
    });
  }
  return problems;
}
