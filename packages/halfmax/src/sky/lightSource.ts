import { type LampSpectrum, lightSourcesTable } from '../reference/index.js';

/** A lamp as lines and as a curve between them, power on a scale of its own. */
export interface LightSource {
  readonly name: string;
  readonly lines: LampSpectrum['lines'];
  /** Power per nm at a wavelength. */
  readonly powerAt: (wavelengthNm: number) => number;
  readonly source: string;
}

/** Names to offer in an error; a white LED is named with its colour temperature. */
export const knownLightSources: readonly string[] = [
  ...lightSourcesTable.lamps.map(({ name }) => name),
  'LED 2700 K to LED 6600 K',
];

/** A white LED without a colour temperature: neutral white, common practice for street lamps, no source. */
const USUAL_LED_K = 4000;

type Band = LampSpectrum['bands'][number];

/**
 * A lamp by its name.
 *
 * @param name - such as `high-pressure sodium`, `amber LED`, `LED 4000 K`, `LED` (4000 K); case, blanks and
 *   dashes do not matter
 * @returns the lamp, or null where the name is not known or an LED's temperature is outside 2700 to 6600 K
 */
export function lightSource(name: string): LightSource | null {
  const plain = plainName(name);
  const led = /^(?:white|phosphorwhite)?led(\d{4,5})k?$/.exec(plain) ?? /^(\d{4,5})kled$/.exec(plain);
  if (led !== null) return whiteLed(Number(led[1]));
  if (/^(?:white)?leds?$/.test(plain)) return whiteLed(USUAL_LED_K);
  const lamp = lightSourcesTable.lamps.find((one) =>
    [one.name, ...one.aliases].some((known) => plainName(known) === plain),
  );
  if (lamp === undefined) return null;
  const heights = lamp.bands.map((band) => ({
    ...band,
    // The area of a Gaussian is its height times its width times sqrt(pi / (4 ln 2)).
    height: (2 * band.power) / (band.blueFwhmNm + band.redFwhmNm) / Math.sqrt(Math.PI / (4 * Math.LN2)),
  }));
  return {
    name: lamp.name,
    lines: lamp.lines,
    powerAt: (at) => heights.reduce((sum, band) => sum + band.height * shape(band, at), 0),
    source: lamp.source,
  };
}

function whiteLed(temperatureK: number): LightSource | null {
  const { leds, ledSource } = lightSourcesTable;
  if (!(temperatureK >= 2700 && temperatureK <= 6600)) return null;
  let k = 0;
  while (k < leds.length - 2 && leds[k + 1]!.colourTemperatureK < temperatureK) k++;
  const [cold, hot] = [leds[k]!, leds[k + 1]!];
  const inverse = (kelvin: number): number => 1e6 / kelvin;
  const part =
    (inverse(cold.colourTemperatureK) - inverse(temperatureK)) /
    (inverse(cold.colourTemperatureK) - inverse(hot.colourTemperatureK));
  const between = (name: 'pump' | 'phosphor'): Omit<Band, 'power'> & { peak: number } => {
    const mix = (field: 'peak' | 'centreNm' | 'blueFwhmNm' | 'redFwhmNm'): number =>
      cold[name][field] + part * (hot[name][field] - cold[name][field]);
    return {
      peak: mix('peak'),
      centreNm: mix('centreNm'),
      blueFwhmNm: mix('blueFwhmNm'),
      redFwhmNm: mix('redFwhmNm'),
    };
  };
  const [pump, phosphor] = [between('pump'), between('phosphor')];
  return {
    name: `LED ${temperatureK} K`,
    lines: [],
    powerAt: (at) => pump.peak * shape(pump, at) + phosphor.peak * shape(phosphor, at),
    source: ledSource,
  };
}

function shape(band: Omit<Band, 'power'>, at: number): number {
  const width = at < band.centreNm ? band.blueFwhmNm : band.redFwhmNm;
  return Math.exp(-4 * Math.LN2 * ((at - band.centreNm) / width) ** 2);
}

function plainName(name: string): string {
  return name.toLowerCase().replace(/[^a-z0-9]/g, '');
}
