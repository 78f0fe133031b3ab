/** Where a command writes. */
export interface Terminal {
  readonly out: (text: string) => void;
  readonly error: (text: string) => void;
  /** Whether a progress line makes sense: a person looks at standard error. */
  readonly showsProgress: boolean;
}

export const usageText: string = `halfmax measures narrowband imaging filters from raw spectrometer frames.

  halfmax measure SESSION --out DIR [--draws N] [--seed S] [--threads N] [--quote] [--json]
      SESSION  folder with session.json, the frames and the star images it names
      --out    folder for measurement.json and one curve table per filter
      --draws  Monte Carlo draws (whole number from 1000 to 10000000; left out: as many as needed)
      --seed   seed of all random numbers (whole number from 0 to 4294967295; left out: 1)
      --threads  worker threads (left out: one per core, at most one per filter and one for the stars; 1: none); the result is the same
      --quote  print a sentence to be quoted for each passband after the table
      --json   print the measurement instead of the table

  halfmax look SESSION [--json]
      a first look while the filters are still on the bench: frames left out, wavelength scale, numbers as measured; writes no file

  halfmax inspect CURVE [--json]
      CURVE    table of wavelength and transmittance: prints the numbers of its passbands

  halfmax compare SESSION-OR-MEASUREMENT… [--draws N] [--seed S] [--csv | --json]
      ranks the filters of sessions or measurements under one site and telescope: those of the first that states any

  halfmax halo IMAGE… --pixel-um S --f-number F --saturation COUNTS [--focal-mm L] [--obstruction E] [--at X,Y]
               [--reach PX] [--exposure S] [--short IMAGE --short-exposure S] [--star-magnitude M --zero-point Z]
               [--reference IMAGE] [--layers WORDS] [--before-f-number F [--before-mm D]]
               [--limit-share P | --limit-surface M | --limit-noise WORDS] [--false-alarm P] [--draws N] [--seed S] [--json]
      IMAGE    FITS image of a bright star, one for each filter: finds its halos, or says what could hide
      --layers from the filter to the sensor, such as filter:3:1.52,gap:17.5,window:2:1.52,gap:6 (name:mm:index of glass)
      --before-f-number, --before-mm  what moving the filter before the corrector would change: light and distance of the faces there
      --limit-noise  seen above the noise, such as hours:4,electronsPerCount:0.8,sky:0.5,dark:0.002,readNoise:1.5 (sky, dark: electrons/s and pixel)

  halfmax --version
  halfmax --help

Exit codes: 0 done, 2 the command or its input is wrong, 1 a fault of the program.
`;

/**
 * A line on standard error that says what is being done; nothing where nobody looks.
 *
 * @param terminal - where to write
 * @returns show(step), and clear() for the end
 */
export function progressLine(terminal: Terminal): { show: (step: string) => void; clear: () => void } {
  if (!terminal.showsProgress) return { show: () => {}, clear: () => {} };
  return {
    show: (step) => terminal.error(`\r\x1b[2K${step} …`),
    clear: () => terminal.error('\r\x1b[2K'),
  };
}
