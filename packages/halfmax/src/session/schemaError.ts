/** What the check of the schema says of one fault. */
export interface SchemaError {
  readonly instancePath: string;
  readonly schemaPath: string;
  readonly keyword: string;
  readonly params: Readonly<Record<string, unknown>>;
  readonly message?: string;
  /** What was found, and the part of the schema that it does not fit. */
  readonly data?: unknown;
  readonly parentSchema?: unknown;
}

/** Checks a manifest; what is wrong with it stands in `errors` after a call that gave false. */
export interface SessionValidator {
  (manifest: unknown): boolean;
  readonly errors?: readonly SchemaError[] | null;
}
