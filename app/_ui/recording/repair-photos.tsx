import Image from "next/image";
import type { PhotoRow } from "../../../db/photos.ts";
import type { RepairMark } from "../../../lib/schema/report.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";

const photoAddress = (photo: number): string => `/api/photos/${photo}`;

/** The photos of one repair. A repair of all cylinders is told by their numbers in a report. */
export function photosOfMark(
  photos: readonly PhotoRow[],
  mark: Pick<RepairMark, "unit" | "date" | "scope" | "cylinders">,
  cylinders: number,
): readonly PhotoRow[] {
  const all = Array.from({ length: cylinders }, (_, i) => i + 1);
  const key = (of: readonly number[]) => of.join("+");
  return photos.filter((photo) => {
    const { unit, date, scope } = photo;
    if (unit !== mark.unit || date !== mark.date || scope !== mark.scope) return false;
    return scope === "engine-swap" || key(photo.cylinders === "all" ? all : photo.cylinders) === key(mark.cylinders);
  });
}

/** A small picture that leads to the whole one, which is served as it was given. */
export function PhotoLink({ photo, f }: { readonly photo: PhotoRow; readonly f: Formats }) {
  const { id, name, date, by } = photo;
  return (
    <a href={photoAddress(id)} target="_blank" rel="noreferrer">
      <Image
        src={photoAddress(id)}
        alt={`Strip-down of ${f.date(date)}: ${name}, by ${by}`}
        loading="lazy"
        width={96}
        height={72}
      />
    </a>
  );
}

export function RepairPhotos({ photos, f }: { readonly photos: readonly PhotoRow[]; readonly f: Formats }) {
  if (photos.length === 0) return null;
  return (
    <ul className="repair-photos">
      {photos.map((photo) => (
        <li key={photo.id}>
          <PhotoLink photo={photo} f={f} />
        </li>
      ))}
    </ul>
  );
}
