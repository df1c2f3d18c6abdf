import type { Settings } from "../../../lib/schema/settings.ts";

/** What one import may bring; known to the page, so that nobody waits for a file that is then refused. */
export const mostFiles = 50;
/** Characters of a file's name; what goes beyond is cut off. */
export const longestName = 200;

/** Bytes of one file, and of all files of one import together. */
export interface UploadLimits {
  readonly bytes: number;
  readonly bytesTogether: number;
}

const megabyte = 1_000_000;

/** The limits that a setting makes: each file up to it, all files of one import up to twice as much. */
export const uploadLimits = ({ uploadLimitMb }: Pick<Settings, "uploadLimitMb">): UploadLimits => ({
  bytes: uploadLimitMb * megabyte,
  bytesTogether: 2 * uploadLimitMb * megabyte,
});

/** A limit in words: "200 MB". */
export const limitWords = (bytes: number): string => `${bytes / megabyte} MB`;

export const tooLarge = ({ bytes }: UploadLimits) =>
  `A file may have up to ${limitWords(bytes)}. Cut it in two, each part with the header row, or change the limit in the Settings.`;
export const tooManyFiles = `One import takes up to ${mostFiles} files. Import the others after it.`;
export const tooLargeTogether = ({ bytesTogether }: UploadLimits) =>
  `The files of one import may have up to ${limitWords(bytesTogether)} together. Import some of them after it.`;
