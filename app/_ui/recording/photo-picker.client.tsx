"use client";

import { FileInput } from "@mantine/core";
import { largestPhotoBytes, mostPhotos, photoTypes } from "../../../lib/schema/photo.ts";
import { ErrorNote } from "../error-note.tsx";
import { callApi } from "../import/call-api.client.ts";

/** Photos that were chosen and not sent yet, and why the last sending stopped. */
export interface GivenPhotos {
  readonly files: readonly File[];
  readonly problem: string | null;
}

/** The repair that photos are sent for, as the address of the API names it. */
export interface PhotosOf {
  readonly unit: string;
  readonly date: string;
  readonly scope: string;
  readonly cylinders: string;
}

/** Sends photos one by one. Gives those that are left, with the reason; none where all are kept. */
export async function sendPhotos(of: PhotosOf, files: readonly File[]): Promise<GivenPhotos> {
  for (const [i, file] of files.entries()) {
    const asked = new URLSearchParams({ ...of, name: file.name });
    const answer = await callApi("POST", `/api/photos?${asked.toString()}`, file);
    if (!answer.ok) return { files: files.slice(i), problem: `${file.name}: ${answer.error}` };
  }
  return { files: [], problem: null };
}

const megabytes = largestPhotoBytes / 1_000_000;

/** Chooses photos to be kept with a repair. */
export function PhotoPicker(props: { readonly photos: GivenPhotos; readonly onChange: (photos: GivenPhotos) => void }) {
  const { files, problem } = props.photos;
  return (
    <>
      <FileInput
        label="Photos"
        description={`Up to ${mostPhotos}, JPEG, PNG or WebP, each up to ${megabytes} MB.`}
        multiple
        clearable
        clearButtonProps={{ "aria-label": "Choose none of these photos" }}
        accept={photoTypes.join(",")}
        value={[...files]}
        onChange={(chosen) => props.onChange({ files: chosen, problem: problemOf(chosen) })}
        error={problem !== null && files.length === 0 ? problem : undefined}
      />
      {problem !== null && files.length > 0 && <ErrorNote happened={problem} />}
    </>
  );
}

/** Why the photos will not be taken; what they are, the server finds out. */
function problemOf(files: readonly File[]): string | null {
  if (files.length > mostPhotos) return `At most ${mostPhotos} photos of a repair are kept; the rest is not.`;
  const large = files.find((file) => file.size > largestPhotoBytes);
  return large === undefined ? null : `${large.name} is larger than ${megabytes} MB, and will not be kept.`;
}
