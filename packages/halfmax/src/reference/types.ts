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
