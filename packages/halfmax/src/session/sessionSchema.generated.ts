// Made from shared/session.schema.json by scripts/generate-tables.mjs; do not edit.
export const sessionSchema: Readonly<Record<string, unknown>> = {
  "$schema": "http://json-schema.org/draft-07/schema#",
  "$id": "halfmax-session/1",
  title: "A halfmax bench session, format halfmax-session/1",
  description: "The file session.json in the folder of a bench session. Fields that are not named here are allowed: they are kept, not used, and a warning names them. Times without a zone are UTC.",
  type: "object",
  required: [ "format", "detector", "frames", "filters" ],
  properties: {
    format: { const: "halfmax-session/1" },
    title: { type: "string" },
    recorded: {
      description: "an ISO 8601 date or date-time",
      type: "string",
      pattern: "^\\d{4}-\\d{2}-\\d{2}(T\\d{2}:\\d{2}(:\\d{2}(\\.\\d+)?)?(Z|[+-]\\d{2}:?\\d{2})?)?$",
    },
    detector: {
      type: "object",
      required: [ "pixels", "saturationCounts" ],
      properties: {
        pixels: { description: "pixels along the dispersion", type: "integer", minimum: 16, maximum: 100000 },
        saturationCounts: { description: "counts at and above which a pixel is not to be trusted", type: "number", exclusiveMinimum: 0 },
        wavelengthStartNm: { description: "nominal wavelength of the first pixel, nm", type: "number", minimum: 100, maximum: 5000 },
        wavelengthEndNm: {
          description: "nominal wavelength of the last pixel, nm; may be below the start",
          type: "number",
          minimum: 100,
          maximum: 5000,
        },
        linearity: {
          description: "p0, p1, ... in ascending powers: true counts = measured x (p0 + p1 measured + ...)",
          type: "array",
          minItems: 1,
          maxItems: 16,
          items: { type: "number" },
        },
      },
    },
    frames: {
      type: "array",
      minItems: 1,
      items: {
        type: "object",
        required: [ "role", "exposureMs", "files" ],
        properties: {
          role: { enum: [ "dark", "lamp", "open", "filtered" ] },
          exposureMs: { description: "exposure of each of the files, ms", type: "number", exclusiveMinimum: 0 },
          files: {
            description: "paths relative to the session folder; * stands for any run of characters but /",
            type: "array",
            minItems: 1,
            items: { type: "string", minLength: 1 },
          },
          lamp: { description: "label of the lamp, for a lamp entry", type: "string", minLength: 1 },
          filter: { description: "id of the filter, for a filtered entry", type: "string", minLength: 1 },
          takenAt: {
            description: "an ISO 8601 date-time such as 2026-01-31T20:15:00Z; without a zone it is UTC",
            type: "string",
            pattern: "^\\d{4}-\\d{2}-\\d{2}T\\d{2}:\\d{2}(:\\d{2}(\\.\\d+)?)?(Z|[+-]\\d{2}:?\\d{2})?$",
          },
        },
        allOf: [
          { if: { required: [ "role" ], properties: { role: { const: "lamp" } } }, then: { required: [ "lamp" ] } },
          {
            if: { required: [ "role" ], properties: { role: { const: "filtered" } } },
            then: { required: [ "filter" ] },
          },
        ],
      },
    },
    filters: {
      type: "array",
      items: {
        type: "object",
        required: [ "id", "lines" ],
        properties: {
          id: {
            description: "letters, digits, '.', '_' and '-', at most 64: results are named after it",
            type: "string",
            pattern: "^[A-Za-z0-9][A-Za-z0-9._-]{0,63}$",
          },
          label: { type: "string" },
          lines: { description: "names from the emission-line table", type: "array", items: { type: "string", minLength: 1 } },
          claims: {
            type: "object",
            properties: {
              fwhmNm: { "$ref": "#/definitions/lengthClaim" },
              centreNm: { "$ref": "#/definitions/lengthClaim" },
              peakTransmittance: { "$ref": "#/definitions/fractionClaim" },
              transmittanceAtLine: { "$ref": "#/definitions/fractionClaim" },
              opticalDensity: { "$ref": "#/definitions/densityClaim" },
            },
          },
          price: {
            type: "object",
            required: [ "amount", "currency" ],
            properties: { amount: { type: "number", minimum: 0 }, currency: { type: "string", minLength: 1 } },
          },
        },
      },
    },
    site: {
      type: "object",
      properties: {
        skyBrightness: {
          description: "zenith sky brightness, V magnitudes per square arcsecond",
          type: "number",
          minimum: 0,
          maximum: 30,
        },
        skyBrightnessUncertainty: {
          description: "standard uncertainty of it, magnitudes; left out: as in the table night-sky",
          type: "number",
          minimum: 0,
          maximum: 5,
        },
        airglowRelativeUncertainty: {
          description: "relative standard uncertainty of the airglow's strength; left out: as in the table night-sky",
          type: "number",
          minimum: 0,
          maximum: 5,
        },
        lightSources: {
          description: "mix of artificial light: shares are relative, they need not add up to 1",
          type: "array",
          items: {
            type: "object",
            required: [ "source", "share" ],
            properties: {
              source: { type: "string", minLength: 1 },
              share: { type: "number", minimum: 0 },
              uncertainty: { description: "standard uncertainty of the share, on the same scale", type: "number", minimum: 0 },
            },
          },
        },
        moon: {
          type: "object",
          properties: {
            illuminatedFraction: { type: "number", minimum: 0, maximum: 1 },
            altitudeDeg: { type: "number", minimum: -90, maximum: 90 },
            separationDeg: { type: "number", minimum: 0, maximum: 180 },
            relativeUncertainty: {
              description: "relative standard uncertainty of the moonlight; left out: as in the table night-sky",
              type: "number",
              minimum: 0,
              maximum: 5,
            },
          },
        },
        airmass: { type: "number", minimum: 1, maximum: 40 },
        quantumEfficiency: {
          description: "a fraction, or a table of [wavelength in nm, fraction]",
          anyOf: [ { type: "number", exclusiveMinimum: 0, maximum: 1 }, { "$ref": "#/definitions/responseTable" } ],
        },
        siteClass: { description: "a class of site instead of a brightness, such as suburb", type: "string", minLength: 1 },
        aerosol: {
          description: "haze: optical depth at 550 nm, and the power of the wavelength by which it falls",
          type: "object",
          required: [ "opticalDepth550", "exponent" ],
          properties: {
            opticalDepth550: { type: "number", minimum: 0, maximum: 10 },
            exponent: { type: "number", minimum: 0, maximum: 4 },
          },
        },
        spectrum: {
          description: "a measured spectrum of the sky instead of lamps and moon: table of nm and light per nm, path relative to the session folder",
          type: "object",
          required: [ "file", "unit" ],
          properties: {
            file: { type: "string", minLength: 1 },
            unit: { enum: [ "photons/s/m2/arcsec2/nm", "relative photons", "relative energy" ] },
          },
        },
        camera: {
          type: "object",
          properties: {
            pixelUm: { description: "um, above 0", type: "number", exclusiveMinimum: 0 },
            readNoise: { description: "electrons", type: "number", minimum: 0 },
            darkCurrent: { description: "electrons per second and pixel", type: "number", minimum: 0 },
            opticsTransmittance: {
              description: "of mirrors, lenses and windows, filter left out",
              type: "number",
              exclusiveMinimum: 0,
              maximum: 1,
            },
            colour: {
              description: "true for a sensor with a colour layer of the usual kind, or its responses, tables of nm and fraction",
              anyOf: [
                { type: "boolean" },
                {
                  type: "object",
                  required: [ "red", "green", "blue" ],
                  properties: {
                    red: { "$ref": "#/definitions/responseTable" },
                    green: { "$ref": "#/definitions/responseTable" },
                    blue: { "$ref": "#/definitions/responseTable" },
                  },
                },
              ],
            },
          },
        },
        targets: {
          description: "surface brightness of the target in lines",
          type: "array",
          items: {
            type: "object",
            required: [ "line", "value", "unit" ],
            properties: {
              line: { description: "a name from the emission-line table", type: "string", minLength: 1 },
              value: { type: "number", minimum: 0 },
              uncertainty: {
                description: "standard uncertainty of the value, in the same unit; left out: the value is exact",
                type: "number",
                minimum: 0,
              },
              unit: { enum: [ "rayleigh", "erg/s/cm2/arcsec2" ] },
            },
          },
        },
        rangeNm: {
          description: "what the camera sees without a filter, [from, to] in nm",
          type: "array",
          minItems: 2,
          maxItems: 2,
          items: [ { type: "number", minimum: 350, maximum: 1000 }, { type: "number", minimum: 350, maximum: 1000 } ],
        },
        signalToNoise: { description: "in each pixel, the goal of the hours, above 0", type: "number", exclusiveMinimum: 0 },
        frameS: { description: "length of a frame in s, above 0", type: "number", exclusiveMinimum: 0 },
        nightHours: { description: "of a clear night, above 0", type: "number", exclusiveMinimum: 0, maximum: 24 },
        nights: { description: "clear nights that a price is spread over, above 0", type: "number", exclusiveMinimum: 0 },
      },
    },
    decision: {
      description: "how a measurement becomes a verdict",
      type: "object",
      required: [ "rule" ],
      properties: {
        rule: { enum: [ "probability", "simple", "guarded" ] },
        probability: {
          description: "what a verdict must reach by the rule probability, above 0.5 and below 1",
          type: "number",
          exclusiveMinimum: 0.5,
          exclusiveMaximum: 1,
        },
        multiple: {
          description: "the guard band over the expanded uncertainty, 0 to 10",
          type: "number",
          minimum: 0,
          maximum: 10,
        },
        coverageFactor: {
          description: "the expanded over the standard uncertainty, above 0 and at most 10",
          type: "number",
          exclusiveMinimum: 0,
          maximum: 10,
        },
      },
    },
    bench: {
      description: "how the filters stood on the bench; the telescope's light is beam",
      type: "object",
      properties: {
        fNumber: { description: "the f-number of the light through the filter, above 0", type: "number", exclusiveMinimum: 0 },
        temperatureC: {
          description: "the temperature of the filters in degrees Celsius",
          type: "number",
          minimum: -100,
          maximum: 200,
        },
        spot: { description: "the place and size of the lit spot, in words", type: "string", minLength: 1, maxLength: 200 },
      },
    },
    beam: {
      type: "object",
      properties: {
        fNumber: {
          description: "a number above 0, or a list of them",
          anyOf: [
            { type: "number", exclusiveMinimum: 0 },
            { type: "array", minItems: 1, items: { type: "number", exclusiveMinimum: 0 } },
          ],
        },
        centralObstruction: {
          description: "diameter of the obstruction over that of the aperture",
          type: "number",
          minimum: 0,
          exclusiveMaximum: 1,
        },
        effectiveIndex: {
          description: "a number of at least 1, or its range [low, high]",
          anyOf: [
            { type: "number", minimum: 1, maximum: 5 },
            {
              type: "array",
              minItems: 2,
              maxItems: 2,
              items: [ { type: "number", minimum: 1, maximum: 5 }, { type: "number", minimum: 1, maximum: 5 } ],
            },
          ],
        },
        pupil: {
          description: "uniform, or a Gaussian with the intensity at the edge over that of the centre",
          anyOf: [
            { const: "uniform" },
            {
              type: "object",
              required: [ "gaussianEdge" ],
              properties: { gaussianEdge: { type: "number", exclusiveMinimum: 0, maximum: 1 } },
            },
          ],
        },
        reducer: {
          description: "factor that multiplies fNumber (then that of the telescope alone), and the side on which the filter sits",
          type: "object",
          required: [ "factor" ],
          properties: {
            factor: { type: "number", exclusiveMinimum: 0, maximum: 10 },
            filterPlace: { enum: [ "before", "behind" ] },
          },
        },
        chiefRayDeg: {
          description: "angle of the axis of the cone at the place of the field, degrees; 0 is telecentric",
          type: "number",
          minimum: 0,
          maximum: 45,
        },
        tiltDeg: { description: "tilt of the filter in its holder, degrees", type: "number", minimum: 0, maximum: 45 },
        tiltDirectionDeg: {
          description: "direction of the tilt against that of the chief ray: 0 adds, 180 takes away",
          type: "number",
          minimum: 0,
          maximum: 360,
        },
        temperatureC: {
          description: "of the filter in use, degrees Celsius; counts against bench.temperatureC",
          type: "number",
          minimum: -100,
          maximum: 200,
        },
        temperatureNmPerK: {
          description: "shift to the red in nm per kelvin, or its range",
          anyOf: [
            { type: "number", minimum: -1, maximum: 1 },
            {
              type: "array",
              minItems: 2,
              maxItems: 2,
              items: [ { type: "number", minimum: -1, maximum: 1 }, { type: "number", minimum: -1, maximum: 1 } ],
            },
          ],
        },
        share: {
          description: "of the transmittance in parallel light that is to be kept, above 0 and below 1",
          type: "number",
          exclusiveMinimum: 0,
          exclusiveMaximum: 1,
        },
      },
    },
    stars: {
      description: "images of bright stars through the filters, for their halos",
      type: "array",
      items: {
        type: "object",
        required: [ "filter", "file", "pixelSizeUm", "fNumber", "saturationCounts" ],
        properties: {
          filter: { description: "id of the filter", type: "string", minLength: 1 },
          file: { description: "a FITS image, path relative to the session folder", type: "string", minLength: 1 },
          star: { description: "name of the star: images of the same star are compared", type: "string", minLength: 1 },
          pixelSizeUm: { description: "um, above 0", type: "number", exclusiveMinimum: 0 },
          fNumber: { description: "f-number of the light at the sensor, above 0", type: "number", exclusiveMinimum: 0 },
          fNumberUncertainty: { description: "standard uncertainty of fNumber, below fNumber", type: "number", minimum: 0 },
          saturationCounts: { description: "counts at and above which a pixel is full", type: "number", exclusiveMinimum: 0 },
          exposureS: {
            description: "exposure of file in s, above 0; left out: that of its header",
            type: "number",
            exclusiveMinimum: 0,
          },
          focalLengthMm: { description: "mm, above 0: turns pixels into arcseconds", type: "number", exclusiveMinimum: 0 },
          obstruction: {
            description: "diameter of the obstruction over that of the aperture",
            type: "number",
            minimum: 0,
            exclusiveMaximum: 1,
          },
          near: {
            description: "rough place of the star in pixels, the first is 1; left out: the brightest star",
            type: "object",
            required: [ "x", "y" ],
            properties: { x: { type: "number", minimum: 1, maximum: 1000000 }, y: { type: "number", minimum: 1, maximum: 1000000 } },
          },
          shortFile: {
            description: "an exposure of the same star so short that it is not saturated",
            type: "string",
            minLength: 1,
          },
          shortExposureS: {
            description: "exposure of shortFile in s, above 0; left out: that of its header",
            type: "number",
            exclusiveMinimum: 0,
          },
          magnitude: {
            description: "of the star through the filter; goes with zeroPoint",
            type: "number",
            minimum: -50,
            maximum: 50,
          },
          zeroPoint: {
            description: "magnitude of a star that gives one count in this exposure; goes with magnitude",
            type: "number",
            minimum: -50,
            maximum: 80,
          },
          magnitudeUncertainty: {
            description: "standard uncertainty of magnitude and zeroPoint together",
            type: "number",
            minimum: 0,
            maximum: 5,
          },
          referenceFile: {
            description: "an image of the same star without the filter, or with another one, for the wings",
            type: "string",
            minLength: 1,
          },
          layers: {
            description: "plates and gaps in the way of the light, from the filter to the sensor",
            type: "array",
            minItems: 1,
            maxItems: 40,
            items: {
              type: "object",
              required: [ "name", "thicknessMm" ],
              properties: {
                name: { type: "string", minLength: 1 },
                thicknessMm: { description: "mm, above 0", type: "number", exclusiveMinimum: 0, exclusiveMaximum: 10000 },
                uncertaintyMm: {
                  description: "standard uncertainty of the thickness; left out: 0.05 mm",
                  type: "number",
                  minimum: 0,
                  maximum: 1000,
                },
                index: { description: "refractive index; left out: 1, a gap", type: "number", minimum: 1, exclusiveMaximum: 4 },
              },
            },
          },
          limit: { "$ref": "#/definitions/haloLimit" },
          fNumberBefore: {
            description: "f-number before the corrector, above 0: tells what moving the filter there changes",
            type: "number",
            exclusiveMinimum: 0,
          },
          movedSpacingMm: {
            description: "distance of the faces with the filter before the corrector, mm of air, above 0",
            type: "number",
            exclusiveMinimum: 0,
          },
        },
      },
    },
  },
  definitions: {
    responseTable: {
      description: "rows of wavelength in nm and fraction, ascending",
      type: "array",
      minItems: 2,
      items: {
        type: "array",
        minItems: 2,
        maxItems: 2,
        items: [ { type: "number", exclusiveMinimum: 0 }, { type: "number", minimum: 0, maximum: 1 } ],
      },
    },
    haloLimit: {
      description: "from where on a halo is too much: of the kind share, surface or noise",
      type: "object",
      required: [ "kind" ],
      properties: {
        kind: { enum: [ "share", "surface", "noise" ] },
        atMost: {
          description: "share of the star's light, above 0 and below 1",
          type: "number",
          exclusiveMinimum: 0,
          exclusiveMaximum: 1,
        },
        atLeast: {
          description: "magnitudes per square arcsecond above the star's magnitude",
          type: "number",
          minimum: -50,
          maximum: 50,
        },
        hours: { description: "of exposure, above 0", type: "number", exclusiveMinimum: 0 },
        electronsPerCount: { description: "of the image, above 0", type: "number", exclusiveMinimum: 0 },
        brighterBy: {
          description: "magnitudes by which the star to think of is brighter than this one; left out: 0",
          type: "number",
          minimum: -50,
          maximum: 50,
        },
        sky: {
          description: "electrons per second and pixel through the filter; left out: worked out for the site",
          type: "number",
          minimum: 0,
        },
        dark: { description: "electrons per second and pixel; left out: as in site", type: "number", minimum: 0 },
        readNoise: { description: "electrons; left out: as in site", type: "number", minimum: 0 },
        frameS: {
          description: "length of a frame in s, above 0; left out: as in site, or that of the image",
          type: "number",
          exclusiveMinimum: 0,
        },
        pixels: {
          description: "of the patch within which the mean is taken, at least 1; left out: 100",
          type: "number",
          minimum: 1,
        },
        threshold: {
          description: "signal to noise at which it is seen, above 0; left out: 5",
          type: "number",
          exclusiveMinimum: 0,
        },
      },
      allOf: [
        { if: { required: [ "kind" ], properties: { kind: { const: "share" } } }, then: { required: [ "atMost" ] } },
        {
          if: { required: [ "kind" ], properties: { kind: { const: "surface" } } },
          then: { required: [ "atLeast" ] },
        },
        {
          if: { required: [ "kind" ], properties: { kind: { const: "noise" } } },
          then: { required: [ "hours", "electronsPerCount" ] },
        },
      ],
    },
    tolerance: {
      description: "a number above 0, or [minus, plus] with both at least 0 and one above 0",
      anyOf: [
        { type: "number", exclusiveMinimum: 0 },
        {
          type: "array",
          minItems: 2,
          maxItems: 2,
          items: [ { type: "number", minimum: 0 }, { type: "number", minimum: 0 } ],
          contains: { type: "number", exclusiveMinimum: 0 },
        },
      ],
    },
    claimForm: {
      description: "exactly one of value, atLeast and atMost",
      oneOf: [ { required: [ "value" ] }, { required: [ "atLeast" ] }, { required: [ "atMost" ] } ],
    },
    lengthClaim: {
      type: "object",
      allOf: [ { "$ref": "#/definitions/claimForm" } ],
      properties: {
        value: { type: "number", exclusiveMinimum: 0 },
        tolerance: { "$ref": "#/definitions/tolerance" },
        atLeast: { type: "number", exclusiveMinimum: 0 },
        atMost: { type: "number", exclusiveMinimum: 0 },
      },
    },
    fractionClaim: {
      type: "object",
      allOf: [ { "$ref": "#/definitions/claimForm" } ],
      properties: {
        value: { description: "a fraction, 0 to 1", type: "number", minimum: 0, maximum: 1 },
        tolerance: { "$ref": "#/definitions/tolerance" },
        atLeast: { description: "a fraction, 0 to 1", type: "number", minimum: 0, maximum: 1 },
        atMost: { description: "a fraction, 0 to 1", type: "number", minimum: 0, maximum: 1 },
      },
    },
    densityClaim: {
      type: "object",
      allOf: [ { "$ref": "#/definitions/claimForm" } ],
      required: [ "fromNm", "toNm" ],
      properties: {
        value: { type: "number", minimum: 0 },
        tolerance: { "$ref": "#/definitions/tolerance" },
        atLeast: { type: "number", minimum: 0 },
        atMost: { type: "number", minimum: 0 },
        fromNm: { type: "number", exclusiveMinimum: 0 },
        toNm: { description: "above fromNm", type: "number", exclusiveMinimum: 0 },
      },
    },
  },
};
