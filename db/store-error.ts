export type StoreErrorCode = "newer-version" | "not-a-database" | "not-writable" | "busy";

/** What keeps the store from being opened; `message` is a whole sentence for the person at the machine. */
export class StoreError extends Error {
  override readonly name = "StoreError";
  readonly code: StoreErrorCode;

  constructor(code: StoreErrorCode, message: string, options?: ErrorOptions) {
    super(message, options);
    this.code = code;
  }
}
