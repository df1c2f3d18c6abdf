/** What a photo may be: by its first bytes, so that nothing else comes in under an image's name. */
export const photoTypes = ["image/jpeg", "image/png", "image/webp"] as const;
export type PhotoType = (typeof photoTypes)[number];

/** How the file of a photo ends, by what it is. */
export const photoEndings = {
  "image/jpeg": "jpg",
  "image/png": "png",
  "image/webp": "webp",
} as const satisfies Record<PhotoType, string>;

/** A photo of a telephone has 2 to 8 MB; more tells nobody more of a valve seat. */
export const largestPhotoBytes = 10_000_000;
export const mostPhotos = 6;
/** Letters of the name that it is given by. */
export const longestPhotoName = 200;

const startsWith = (bytes: Uint8Array, mark: readonly number[], at = 0): boolean =>
  mark.every((byte, i) => bytes[at + i] === byte);

const riff = [0x52, 0x49, 0x46, 0x46];
const webp = [0x57, 0x45, 0x42, 0x50];

/**
 * What image the bytes are by the marks that its format begins with (JPEG: SOI and a further marker, ISO/IEC 10918-1 B.1;
 * PNG: ISO/IEC 15948 5.2; WebP: RFC 9649 2.4). null: none that a page may show; an SVG is none, for it can hold script.
 */
export function photoTypeOf(bytes: Uint8Array): PhotoType | null {
  if (startsWith(bytes, [0xff, 0xd8, 0xff])) return "image/jpeg";
  if (startsWith(bytes, [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a])) return "image/png";
  if (startsWith(bytes, riff) && startsWith(bytes, webp, 8)) return "image/webp";
  return null;
}
