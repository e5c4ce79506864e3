/** Photos of readings. The job holds only their names; the pictures stand in a database of their own on this device, made
 *  small on the way in, and go out and come back as files beside the job's file.
 */
import { openDB, type DBSchema, type IDBPDatabase } from 'idb';
import type { Job } from '../work/contract.ts';

interface KeptPhoto {
  readonly name: string;
  readonly picture: Blob;
}

interface Schema extends DBSchema {
  photos: { key: string; value: KeptPhoto };
}

export type Photographed =
  { readonly kind: 'kept'; readonly name: string } | { readonly kind: 'refused'; readonly why: string };

/** Longest side kept [px]: a nameplate stays readable, and a visit of photos stays a few megabytes. */
const longestSide = 1600;
const quality = 0.8;
const largestFile = 40_000_000;
export const mostPhotos = 6;

let database: Promise<IDBPDatabase<Schema>> | undefined;

/** Takes a picture in under a new name, or under its own when it comes back beside a job. */
export async function keepPhoto(
  file: Blob,
  name = `photo-${crypto.randomUUID()}.jpg`,
): Promise<Photographed> {
  if (file.size > largestFile)
    return {
      kind: 'refused',
      why: `It has ${Math.round(file.size / 1e6)} MB; at most ${largestFile / 1e6} MB can be taken in. Take it with fewer megapixels.`,
    };
  const picture = await smaller(file).catch(() => undefined);
  if (picture === undefined)
    return {
      kind: 'refused',
      why: 'This file is no picture that the browser can read. Use JPEG, PNG or WebP.',
    };
  try {
    await (await open()).put('photos', { name, picture });
  } catch {
    return {
      kind: 'refused',
      why: 'The device has no room left for it. Save the photos as files, remove old jobs, then try again.',
    };
  }
  return { kind: 'kept', name };
}

export async function photoOf(name: string): Promise<Blob | undefined> {
  return (await (await open()).get('photos', name))?.picture;
}

export function photoNames(job: Job): readonly string[] {
  return job.visits.flatMap(({ readings }) => readings.flatMap(({ photos }) => photos));
}

/** Takes the photos of a job off the device, except those that another job names too. */
export async function forgetPhotos(job: Job, others: readonly Job[]): Promise<void> {
  const needed = new Set(others.flatMap(photoNames));
  const photos = await open();
  await Promise.all(
    photoNames(job).flatMap((name) => (needed.has(name) ? [] : [photos.delete('photos', name)])),
  );
}

/** The picture no larger than it is kept, without whatever the camera wrote into it (place, owner). */
async function smaller(file: Blob): Promise<Blob> {
  const bitmap = await createImageBitmap(file);
  const scale = Math.min(1, longestSide / Math.max(bitmap.width, bitmap.height));
  const width = Math.max(1, Math.round(bitmap.width * scale));
  const height = Math.max(1, Math.round(bitmap.height * scale));
  const canvas = new OffscreenCanvas(width, height);
  const context = canvas.getContext('2d');
  if (!context) throw new Error('no canvas');
  context.drawImage(bitmap, 0, 0, width, height);
  bitmap.close();
  return canvas.convertToBlob({ type: 'image/jpeg', quality });
}

function open(): Promise<IDBPDatabase<Schema>> {
  database ??= openDB<Schema>('ampwright-photos', 1, {
    upgrade: (fresh) => void fresh.createObjectStore('photos', { keyPath: 'name' }),
  });
  return database;
}
