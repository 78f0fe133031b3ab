import { absent, isAbsent, type Measured, type Quantity, quantity } from '../metrics/index.js';
import { diskFlux } from './bootstrapDisks.js';
import { uncertaintyAlong } from './diskCovariance.js';
import type { DiskStart } from './diskShape.js';
import { fitDisks } from './fitDisks.js';
import { fitMisfit } from './fitMisfit.js';
import { fitResponse } from './fitResponse.js';
import type { HaloResult } from './measureHalo.js';
import { staticCells } from './staticCells.js';

/** A measured image of the same star through one filter. */
export interface ComparedImage {
  readonly label: string;
  readonly result: HaloResult;
  /** Brings radii to one scale: images of unlike pixels or focal lengths are told apart by it. */
  readonly micrometresPerPixel: number;
}

/** Light of one filter within the common annulus. */
export interface ComparedHalo {
  readonly label: string;
  /** Share of the star's light; may be below 0 by chance. */
  readonly shareOfStar: Quantity;
  /** Over that of the first image. */
  readonly ratio: Quantity;
  /** First over this one in magnitudes: positive, this one is fainter. */
  readonly magnitudesFainter: Quantity;
}

/** Several filters on the same star, the same disk in each. */
export interface HaloComparison {
  readonly innerUm: number;
  readonly outerUm: number;
  readonly filters: readonly ComparedHalo[];
}

const NORMAL_95 = 1.959963984540054;
const SAME_DISK = 0.05;

/**
 * Compares the halos of several filters on one star: the light of a uniform disk of the same size is fitted to each
 * image, whether one was found in it or not.
 *
 * @param images - at least two, each measured with the star's light known
 * @param annulus - inner and outer radius, micrometres on the sensor; left out: the strongest disk found in any image
 * @returns shares and ratios, or why there is no common disk
 * @throws {RangeError} fewer than two images, or an annulus out of order
 *
 * Source: interval of a ratio: Fieller, J. R. Stat. Soc. B 16, 175 (1954).
 */
export function compareHalos(
  images: readonly ComparedImage[],
  annulus?: readonly [number, number],
): HaloComparison | { readonly absent: string } {
  if (images.length < 2)
    throw new RangeError(`compareHalos requires at least 2 images, got ${images.length}`);
  if (annulus !== undefined && !(annulus[0] >= 0 && annulus[1] > annulus[0]))
    throw new RangeError(
      `compareHalos requires an inner radius below the outer one, got ${annulus.join(', ')}`,
    );
  const [innerUm, outerUm] = annulus ?? strongest(images) ?? [0, 0];
  if (outerUm === 0) return { absent: 'no image shows a halo: give the annulus to compare' };
  const shares = images.map((image) => shareIn(image, innerUm, outerUm));
  const filters = images.map(({ label }, k): ComparedHalo => {
    const ratio = k === 0 ? selfRatio(shares[0]!) : ratioOf(shares[k]!, shares[0]!);
    return { label, shareOfStar: shares[k]!, ratio, magnitudesFainter: magnitudes(ratio) };
  });
  return { innerUm, outerUm, filters };
}

function strongest(images: readonly ComparedImage[]): [number, number] | null {
  let best: [number, number] | null = null;
  let most = 0;
  for (const { result, micrometresPerPixel } of images) {
    for (const disk of result.workings.search.fit.disks) {
      const star = result.workings.starCounts;
      const share = isAbsent(star) ? 0 : diskFlux(disk) / star.value;
      if (share <= most) continue;
      most = share;
      best = [disk.inner * micrometresPerPixel, disk.outer * micrometresPerPixel];
    }
  }
  return best;
}

function shareIn({ result, micrometresPerPixel }: ComparedImage, innerUm: number, outerUm: number): Quantity {
  const { search, starCounts } = result.workings;
  if (isAbsent(starCounts)) return starCounts;
  const { table, wings, fit } = search;
  const outer = outerUm / micrometresPerPixel;
  const inner = innerUm / micrometresPerPixel;
  const last = table.radius[table.radius.length - 4]!;
  if (outer > last || outer < table.radius[4]!)
    return absent('the disk is not within the part of the image that is measured');
  const like = fit.disks.find((disk) => Math.abs(disk.outer / outer - 1) < SAME_DISK);
  const others = fit.disks.filter((disk) => disk !== like);
  const forced: DiskStart = {
    surface: like?.surface ?? 0,
    inner,
    outer,
    dx: like?.dx ?? 0,
    dy: like?.dy ?? 0,
    blur: like?.blur ?? 1.5,
    radiusFree: false,
    holeFree: false,
    placeFree: false,
  };
  const cells = staticCells(table, wings);
  const here = fitResponse(table, cells, fitDisks(table, cells, [forced, ...others]));
  const surface = new Float64Array(here.parameters.length);
  surface[here.begins[0]!] = 1;
  const uncertainty = uncertaintyAlong(here, fitMisfit(here))(surface);
  if (!Number.isFinite(uncertainty)) return absent('the fit does not tell the disk from the wings');
  const flux = diskFlux(here.disks[0]!);
  const fluxUncertainty = Math.PI * uncertainty * (outer * outer - inner * inner);
  const share = flux / starCounts.value;
  return quantity(
    share,
    Math.hypot(
      fluxUncertainty / starCounts.value,
      (share * starCounts.standardUncertainty) / starCounts.value,
    ),
  );
}

function selfRatio(share: Quantity): Quantity {
  return isAbsent(share) ? share : quantity(1, 0);
}

/** A ratio with Fieller's interval; none where the first is not told from 0. */
function ratioOf(a: Quantity, b: Quantity): Quantity {
  if (isAbsent(a)) return a;
  if (isAbsent(b)) return b;
  const g = (NORMAL_95 * b.standardUncertainty) / b.value;
  if (!(b.value > 0 && g * g < 1)) return absent('the first filter shows no light there to compare with');
  const value = a.value / b.value;
  const middle = value / (1 - g * g);
  const reach =
    (NORMAL_95 / (b.value * (1 - g * g))) *
    Math.sqrt(a.standardUncertainty ** 2 * (1 - g * g) + value * value * b.standardUncertainty ** 2);
  const found: Measured = {
    value,
    standardUncertainty: Math.hypot(a.standardUncertainty, value * b.standardUncertainty) / b.value,
    interval95: [middle - reach, middle + reach],
  };
  return found;
}

function magnitudes(ratio: Quantity): Quantity {
  if (isAbsent(ratio)) return ratio;
  const [low, high] = ratio.interval95;
  if (!(low > 0)) return absent('the light is not told from 0');
  return {
    value: -2.5 * Math.log10(ratio.value),
    standardUncertainty: (2.5 / Math.LN10) * (ratio.standardUncertainty / ratio.value),
    interval95: [-2.5 * Math.log10(high) + 0, -2.5 * Math.log10(low) + 0],
  };
}
