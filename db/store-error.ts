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

export const newerVersion = (file: string): StoreError =>
  new StoreError(
    "newer-version",
    `The database ${file} was written by a newer version of Borecast. Start that version, or choose another data folder.`,
  );

export const notOurs = (file: string, cause?: unknown): StoreError =>
  new StoreError("not-a-database", `The file ${file} is not a Borecast database. Choose another data folder.`, {
    cause,
  });

const notWritable = ["EACCES", "EPERM", "EROFS", "ENOENT", "ENOTDIR", "EEXIST", "ENOSPC", "ENAMETOOLONG"];
const startsWithAny = (code: string, words: readonly string[]) => words.some((word) => code.startsWith(word));

/** The error as the person at the machine can use it; anything unforeseen stays as it is. */
export function asStoreError(error: unknown, file: string): unknown {
  if (error instanceof StoreError || !(error instanceof Error)) return error;
  const code = String((error as { code?: unknown }).code ?? "");
  if (startsWithAny(code, ["SQLITE_NOTADB", "SQLITE_CORRUPT"])) return notOurs(file, error);
  if (startsWithAny(code, ["SQLITE_BUSY", "SQLITE_LOCKED"])) {
    return new StoreError("busy", `The database ${file} is held by another program. Try again when it has ended.`, {
      cause: error,
    });
  }
  if (startsWithAny(code, [...notWritable, "SQLITE_CANTOPEN", "SQLITE_READONLY", "SQLITE_IOERR", "SQLITE_FULL"])) {
    return new StoreError(
      "not-writable",
      `The database ${file} cannot be written. Check that its folder can be written and that the disk has room, or choose another data folder.`,
      { cause: error },
    );
  }
  return error;
}
