import { gaussLegendre } from './gaussLegendre.js';
import { requireBeam } from './requireBeam.js';
import type { Beam, BeamRays } from './types.js';

const RADIAL = 48;
/** Rings of a beam whose axis is not the filter's normal, and directions on half of each ring. */
const TILTED_RADIAL = 20;
const TILTED_AROUND = 12;

/**
 * The directions of a beam as seen by the filter: a cone of any focal ratio, obstructed, unevenly lit, leaning.
 *
 * @param beam - focal ratio, obstruction, pupil, chief ray, tilt
 * @returns directions and their shares: nodes of a quadrature, exact for smooth curves
 * @throws {RangeError} a beam that cannot be
 * Source: pupil zones of equal area carry equal light in an evenly lit pupil; sin a = 1 / (2 N) at its edge is the
 * sine condition. The leaning cone: spherical law of cosines.
 */
export function beamRays(beam: Beam): BeamRays {
  requireBeam('beamRays', beam);
  const { centralObstruction = 0, pupil = 'uniform', angleRule = 'sine' } = beam;
  const lean = leanOf(beam);
  const edge = (1 / (2 * beam.fNumber)) ** 2;
  if (edge === 0) return { sineSquared: Float64Array.of(Math.sin(lean) ** 2), weight: Float64Array.of(1) };
  const { nodes, weights } = gaussLegendre(lean === 0 ? RADIAL : TILTED_RADIAL);
  const inner = centralObstruction ** 2;
  const rings = nodes.map((node) => inner + (1 - inner) * node);
  const light = weights.map((weight, i) =>
    pupil === 'uniform' ? weight : weight * pupil.gaussianEdge ** rings[i]!,
  );
  const total = light.reduce((sum, part) => sum + part, 0);
  const sines = rings.map((ring) => (angleRule === 'sine' ? ring * edge : (ring * edge) / (1 + ring * edge)));
  if (lean === 0) return { sineSquared: sines, weight: light.map((part) => part / total) };

  const sineSquared = new Float64Array(rings.length * TILTED_AROUND);
  const weight = new Float64Array(sineSquared.length);
  for (let i = 0; i < rings.length; i++) {
    const up = Math.sqrt(1 - sines[i]!) * Math.cos(lean);
    const across = Math.sqrt(sines[i]!) * Math.sin(lean);
    for (let k = 0; k < TILTED_AROUND; k++) {
      const cosine = up - across * Math.cos((Math.PI * (k + 0.5)) / TILTED_AROUND);
      sineSquared[i * TILTED_AROUND + k] = Math.max(0, 1 - cosine * cosine);
      weight[i * TILTED_AROUND + k] = light[i]! / total / TILTED_AROUND;
    }
  }
  return { sineSquared, weight };
}

/** Angle between the axis of the cone and the filter's normal, radians. */
function leanOf({ chiefRayDeg = 0, tiltDeg = 0, tiltDirectionDeg = 0 }: Beam): number {
  const [chief, tilt, direction] = [chiefRayDeg, tiltDeg, tiltDirectionDeg].map((a) => (a * Math.PI) / 180);
  if (tilt === 0) return Math.abs(chief!);
  if (chief === 0) return Math.abs(tilt!);
  const x = Math.sin(chief!) * Math.cos(tilt!) + Math.cos(chief!) * Math.sin(tilt!) * Math.cos(direction!);
  const y = Math.sin(tilt!) * Math.sin(direction!);
  return Math.asin(Math.min(1, Math.hypot(x, y)));
}
