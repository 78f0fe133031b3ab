/** Light of the sky as it reaches the telescope. */
export interface Sky {
  /** Air, nm, strictly increasing. */
  readonly wavelengthNm: Float64Array;
  /** Photons per second, square metre, square arcsecond and nm; straight between the wavelengths. */
  readonly photons: Float64Array;
  /** Lines too narrow for the table: photons per second, square metre and square arcsecond in each. */
  readonly lines: readonly { readonly wavelengthNm: number; readonly photons: number }[];
}

/** A fraction against wavelength: one for all, or a table that is straight between its points. */
export type Response =
  | number
  | { readonly wavelengthNm: ArrayLike<number>; readonly fraction: ArrayLike<number> };

/** Surface brightness of a target in a line. */
export interface LineBrightness {
  readonly value: number;
  readonly unit: 'rayleigh' | 'erg/s/cm2/arcsec2';
  /** Standard uncertainty of the value. @default 0 */
  readonly uncertainty?: number;
}

/** A mix of lamps: shares of the luminous flux, relative. */
export interface LampShare {
  readonly source: string;
  readonly share: number;
  /** Standard uncertainty of the share, on the same scale. */
  readonly uncertainty?: number;
}

/** Where and when the sky is looked at. */
export interface Site {
  /** V magnitudes per square arcsecond without the moon; or a class of site instead. */
  readonly skyBrightness?: number;
  /** Standard uncertainty of it, magnitudes. @default as in the table night-sky */
  readonly skyBrightnessUncertainty?: number;
  /** @default as in the table night-sky */
  readonly airglowRelativeUncertainty?: number;
  /** A name of the table night-sky, such as `suburb`. */
  readonly siteClass?: string;
  /** @default the mix of the table night-sky */
  readonly lightSources?: readonly LampShare[];
  readonly moon?: {
    readonly illuminatedFraction: number;
    readonly altitudeDeg: number;
    readonly separationDeg: number;
    /** Of the moonlight. @default as in the table night-sky */
    readonly relativeUncertainty?: number;
  };
  /** Of the place looked at. @default 1 */
  readonly airmass?: number;
  readonly aerosol?: { readonly opticalDepth550: number; readonly exponent: number };
}
