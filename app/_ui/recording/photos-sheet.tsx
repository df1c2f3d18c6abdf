import type { PhotoRow, RepairNamed } from "../../../db/photos.ts";
import type { Formats } from "../../../lib/viewing/formats.ts";
import { cylinderWords, scopeWords, sentenceWords } from "../../../lib/wording.ts";
import { Sheet } from "../sheet.tsx";
import { AddPhotos, TakePhotoAway } from "./photos-desk.client.tsx";
import { PhotoLink } from "./repair-photos.tsx";

/** Photos that the repairs of a unit have, and the way to add and to take away. */
export function PhotosSheet(props: {
  readonly f: Formats;
  readonly repairs: readonly RepairNamed[];
  readonly photos: readonly PhotoRow[];
}) {
  const { f, repairs, photos } = props;
  const title = ({ date, scope, cylinders }: RepairNamed) =>
    `${f.date(date)}, ${scopeWords[scope]}${cylinders === "all" ? "" : `, ${cylinderWords(cylinders)}`}`;
  const told = repairs.map((repair) => ({
    unit: repair.unit,
    date: repair.date,
    scope: repair.scope,
    cylinders: repair.cylinders === "all" ? "all" : repair.cylinders.join("+"),
    title: sentenceWords(title(repair)),
  }));
  return (
    <Sheet title="Photos of repairs" note="They are shown with the repair for as long as it stands.">
      <AddPhotos repairs={told} />
      {photos.length > 0 && (
        <ul className="repair-photos photos-kept">
          {photos.map((photo) => (
            <li key={photo.id}>
              <PhotoLink photo={photo} f={f} />
              <p className="small second">
                {title(photo)}
                <br />
                by {photo.by}
              </p>
              <TakePhotoAway photo={photo.id} of={`${photo.name}, ${title(photo)}`} />
            </li>
          ))}
        </ul>
      )}
    </Sheet>
  );
}
