/** Units, theme and skill of whoever holds the page. */
import { setPreference, usePreferences, type Preferences } from '../state/preferences.ts';
import { jobsAddress } from '../state/route.ts';
import { Choice } from '../widgets/choice.tsx';
import { Arrow } from '../widgets/marks.tsx';

export function PreferencesPage() {
  const preferences = usePreferences();
  const row = <P extends keyof Preferences>(
    name: P,
    words: string,
    options: readonly (readonly [Preferences[P] & string, string])[],
    note?: string,
  ) => (
    <Choice
      words={words}
      note={note}
      value={preferences[name]}
      options={options}
      onChoose={(value) => setPreference(name, value)}
    />
  );
  return (
    <>
      <header className="cover">
        <a className="button plain" href={jobsAddress}>
          <Arrow to="left" /> Jobs
        </a>
      </header>
      <main className="sheet alone" id="content">
        <h1>Preferences</h1>
        <p className="soft">Kept on this device. They change how things are shown, never what a job holds.</p>
        {row('theme', 'Paper', [
          ['device', 'As the device'],
          ['light', 'Light'],
          ['dark', 'Dark, for the engine space'],
        ])}
        {row(
          'skill',
          'I am',
          [
            ['owner', 'The owner'],
            ['apprentice', 'An apprentice'],
            ['electrician', 'An electrician'],
          ],
          'No check beyond this is proposed.',
        )}
        {row('temperature', 'Temperature', [
          ['degC', '°C'],
          ['degF', '°F'],
        ])}
        {row('area', 'Cable size', [
          ['mm2', 'mm²'],
          ['AWG', 'AWG'],
        ])}
        {row('length', 'Length', [
          ['m', 'metres'],
          ['ft', 'feet'],
        ])}
        {row('power', 'Engine power', [
          ['kW', 'kW'],
          ['hp', 'hp'],
        ])}
      </main>
    </>
  );
}
