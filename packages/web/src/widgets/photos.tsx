/** Photos of one check's reading: taken with the camera or chosen, shown, struck. */
import { useEffect, useState } from 'react';
import { useOpenJob } from '../state/job-context.tsx';
import { writeReading } from '../state/job-edits.ts';
import { setPendingPhotos, usePendingPhotos } from '../state/pending-photos.ts';
import { keepPhoto, mostPhotos, photoOf } from '../state/photos.ts';
import type { CheckView } from '../work/check-view.ts';

export function Photos({ check }: { readonly check: CheckView }) {
  const { job, visit, readOnly } = useOpenJob();
  const waiting = usePendingPhotos(job.id, check.id);
  const [complaint, setComplaint] = useState<string>();
  const reading = visit?.readings.findLast((candidate) => candidate.check === check.id);
  const names = reading?.photos ?? waiting;
  const set = (changed: readonly string[], words: string) => {
    if (reading) writeReading(job.id, { ...reading, photos: changed }, words);
    else setPendingPhotos(job.id, check.id, changed);
  };
  const add = async (files: readonly File[]) => {
    setComplaint(undefined);
    const kept: string[] = [];
    for (const file of files.slice(0, mostPhotos - names.length)) {
      const result = await keepPhoto(file);
      if (result.kind === 'kept') kept.push(result.name);
      else setComplaint(`${file.name}: ${result.why}`);
    }
    if (kept.length > 0) set([...names, ...kept], kept.length === 1 ? 'photo' : 'photos');
  };
  const full = names.length >= mostPhotos;
  return (
    <section className="photos" aria-label="Photos">
      {names.length > 0 && (
        <ul className="photo-row">
          {names.map((name, index) => (
            <li key={name}>
              <Photo name={name} words={`Photo ${index + 1}: ${check.text.words}`} />
              {!readOnly && (
                <button
                  type="button"
                  className="plain"
                  aria-label={`Take photo ${index + 1} off`}
                  onClick={() =>
                    set(
                      names.filter((other) => other !== name),
                      'take a photo off',
                    )
                  }
                >
                  Take off
                </button>
              )}
            </li>
          ))}
        </ul>
      )}
      {!readOnly && (
        <p className="actions">
          <label className="button photo-button" data-disabled={full}>
            {full ? `${mostPhotos} photos: enough` : 'Take a photo'}
            <input
              type="file"
              accept="image/*"
              capture="environment"
              disabled={full}
              className="unseen"
              onChange={(event) => {
                const files = [...(event.target.files ?? [])];
                event.target.value = '';
                void add(files);
              }}
            />
          </label>
          {!reading && names.length > 0 && (
            <span className="small soft">Kept with the reading when it is written down.</span>
          )}
        </p>
      )}
      {complaint !== undefined && (
        <p className="complaint" role="alert">
          {complaint}
        </p>
      )}
    </section>
  );
}

/** One picture, small; touched, it opens whole. Names from a job file whose pictures are elsewhere are said as text. */
export function Photo({ name, words }: { readonly name: string; readonly words: string }) {
  const [address, setAddress] = useState<string>();
  const [missing, setMissing] = useState(false);
  const [large, setLarge] = useState(false);
  useEffect(() => {
    let made: string | undefined;
    let wanted = true;
    photoOf(name).then(
      (picture) => {
        if (!wanted) return;
        if (picture) {
          made = URL.createObjectURL(picture);
          setAddress(made);
        } else setMissing(true);
      },
      () => setMissing(true),
    );
    return () => {
      wanted = false;
      if (made !== undefined) URL.revokeObjectURL(made);
    };
  }, [name]);
  if (missing) return <p className="small soft">Not on this device: {name}</p>;
  if (address === undefined) return <span className="photo photo-empty" />;
  return (
    <button
      type="button"
      className="photo"
      data-large={large}
      aria-expanded={large}
      onClick={() => setLarge(!large)}
    >
      <img src={address} alt={words} />
    </button>
  );
}
