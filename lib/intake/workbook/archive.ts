/** A workbook's parts by their names. Opening one that is not there, or reading one that is broken, throws `UnreadableFile`. */
export interface Archive {
  readonly names: ReadonlySet<string>;
  readonly open: (name: string) => AsyncIterable<Uint8Array>;
  /** Unpacked size of a part, as the archive tells it. */
  readonly bytesOf: (name: string) => number;
}
