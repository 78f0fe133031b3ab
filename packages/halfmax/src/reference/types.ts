/** A line of a calibration lamp. */
export interface LampLine {
  readonly species: 'Hg I' | 'Ar I' | 'Ne I';
  /** In air, nm. */
  readonly wavelengthNm: number;
  /** Compares lines of one species only, and roughly; null where none is published. */
  readonly relativeIntensity: number | null;
  /** Known to be fainter than the table says: explains a blend, never a first guess. */
  readonly weak: boolean;
}

/** An emission line of nebulae. */
export interface EmissionLine {
  /** As the project writes it, such as `[O III] 500.7`. */
  readonly name: string;
  readonly species: string;
  /** In air, nm. */
  readonly wavelengthNm: number;
  /** Meant when the species is named without a wavelength. */
  readonly principal: boolean;
}

/** What every table says of itself. */
export interface TableHead {
  readonly title: string;
  readonly medium: string;
  readonly unit: string;
  readonly edition: string;
  readonly source: readonly string[];
  readonly note: string;
}

/** shared/lamp-lines.json */
export interface LampLineTable extends TableHead {
  readonly lines: readonly LampLine[];
}

/** shared/emission-lines.json */
export interface EmissionLineTable extends TableHead {
  /** Wavelengths of the principal lines of a species, the one that the trade means first. */
  readonly speciesOrder: Readonly<Record<string, readonly number[]>>;
  readonly doublets: readonly {
    readonly species: string;
    readonly strongNm: number;
    readonly faintNm: number;
    /** Photons of the strong line over those of the faint one. */
    readonly ratio: number;
    readonly source: string;
  }[];
  readonly neighbours: readonly { readonly of: string; readonly names: readonly string[] }[];
  readonly lines: readonly EmissionLine[];
}

/** shared/filter-angle.json */
export interface FilterAngleTable extends TableHead {
  /** Lowest and highest effective index of filters of unknown build. */
  readonly effectiveIndex: readonly number[];
  /** Lowest and highest shift to the red per kelvin. */
  readonly temperatureNmPerK: readonly number[];
}

/** shared/photometry.json */
export interface PhotometryTable extends TableHead {
  /** W per square metre and nm of a source of V = 0. */
  readonly vZeroPointWm2Nm: number;
  readonly vEffectiveNm: number;
  /** cd per square metre of V = 0 per square arcsecond. */
  readonly luminanceOfZero: number;
  readonly lumensPerWatt: number;
  /** Pairs of nm and weight. */
  readonly vBand: readonly (readonly number[])[];
  readonly luminousEfficiency: readonly (readonly number[])[];
}

/** shared/atmosphere.json */
export interface AtmosphereTable extends TableHead {
  readonly rayleigh: { readonly a: number; readonly b: number; readonly c: number };
  readonly aerosol: {
    readonly opticalDepth550: number;
    readonly exponent: number;
    readonly exponentSource: string;
    readonly opticalDepthSource: string;
  };
}

/** A Gaussian with a width of its own on either side. */
export interface SourceBand {
  readonly centreNm: number;
  readonly blueFwhmNm: number;
  readonly redFwhmNm: number;
}

/** A lamp as lines and bands of stated relative power. */
export interface LampSpectrum {
  readonly name: string;
  readonly aliases: readonly string[];
  readonly lines: readonly { readonly wavelengthNm: number; readonly power: number }[];
  readonly bands: readonly (SourceBand & { readonly power: number })[];
  readonly source: string;
}

/** shared/light-sources.json */
export interface LightSourceTable extends TableHead {
  readonly lamps: readonly LampSpectrum[];
  /** White LEDs by colour temperature, ascending. */
  readonly leds: readonly {
    readonly colourTemperatureK: number;
    readonly pump: SourceBand & { readonly peak: number };
    readonly phosphor: SourceBand & { readonly peak: number };
  }[];
  readonly ledSource: string;
}

/** shared/night-sky.json */
export interface NightSkyTable extends TableHead {
  readonly airglow: {
    readonly continuumRayleighPerNm: number;
    readonly continuumSource: string;
    readonly lines: readonly {
      readonly name: string;
      readonly wavelengthNm: number;
      readonly rayleigh: number;
      readonly source: string;
    }[];
  };
  readonly zodiacal: { readonly s10: number; readonly source: string };
  readonly starlight: { readonly s10: number; readonly temperatureK: number; readonly source: string };
  readonly sunTemperatureK: number;
  readonly sunSource: string;
  readonly moon: {
    readonly rayleighLog: number;
    readonly mieLog: number;
    readonly mieDegrees: number;
    readonly extinction: number;
    readonly phaseConstant: number;
    readonly phaseLinear: number;
    readonly phaseFourth: number;
    readonly source: string;
  };
  readonly siteClasses: readonly {
    readonly name: string;
    readonly vMagnitude: number;
    readonly source: string;
  }[];
  readonly siteLamps: readonly { readonly source: string; readonly share: number }[];
  readonly siteLampsSource: string;
  /** How well strengths are known where nobody says: standard uncertainties. */
  readonly strengths: {
    readonly brightness: { readonly vMagnitudes: number; readonly source: string };
    readonly siteClass: { readonly vMagnitudes: number; readonly source: string };
    readonly airglow: { readonly relative: number; readonly source: string };
    readonly moon: { readonly relative: number; readonly source: string };
    readonly shares: { readonly relative: number; readonly source: string };
    readonly assumedShares: { readonly relative: number; readonly source: string };
  };
  /** What is taken where a session states no camera or no target. */
  readonly usual: {
    readonly camera: {
      readonly fNumber: number;
      readonly pixelUm: number;
      readonly quantumEfficiency: number;
      readonly readNoise: number;
      readonly darkCurrent: number;
    };
    readonly targets: readonly { readonly species: string; readonly rayleigh: number }[];
    readonly otherRayleigh: number;
    readonly source: string;
  };
}

/** shared/colour-camera.json */
export interface ColourCameraTable extends TableHead {
  /** Of the pixels. */
  readonly shares: Readonly<Record<'red' | 'green' | 'blue', number>>;
  readonly columns: readonly string[];
  readonly rows: readonly (readonly number[])[];
}
