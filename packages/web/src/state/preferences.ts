/** What this person likes: units, theme, skill. Kept on the device, apart from any job. */
import { useSyncExternalStore } from 'react';
import { metricPreference, type Skill, type UnitPreference } from '../work/contract.ts';

export interface Preferences {
  readonly temperature: 'degC' | 'degF';
  readonly area: 'mm2' | 'AWG';
  readonly length: 'm' | 'ft';
  readonly power: 'kW' | 'hp';
  readonly theme: 'device' | 'light' | 'dark';
  readonly skill: Skill;
}

const place = 'ampwright.preferences';

const usual: Preferences = {
  temperature: 'degC',
  area: 'mm2',
  length: 'm',
  power: 'kW',
  theme: 'device',
  skill: 'electrician',
};

const allowed: { readonly [P in keyof Preferences]: readonly Preferences[P][] } = {
  temperature: ['degC', 'degF'],
  area: ['mm2', 'AWG'],
  length: ['m', 'ft'],
  power: ['kW', 'hp'],
  theme: ['device', 'light', 'dark'],
  skill: ['owner', 'apprentice', 'electrician'],
};

let present = read();
const listeners = new Set<() => void>();

export function usePreferences(): Preferences {
  return useSyncExternalStore(subscribe, () => present);
}

export function setPreference<P extends keyof Preferences>(name: P, value: Preferences[P]): void {
  localStorage.setItem(place, JSON.stringify({ ...present, [name]: value }));
  refresh();
}

/** Puts the theme on the document, now and whenever it changes, here or in another tab. */
export function keepThemeApplied(): void {
  const apply = () => {
    if (present.theme === 'device') delete document.documentElement.dataset['theme'];
    else document.documentElement.dataset['theme'] = present.theme;
  };
  apply();
  subscribe(apply);
}

export function unitsOf(preferences: Preferences): UnitPreference {
  const { temperature, area, length, power } = preferences;
  return {
    ...metricPreference,
    temperature,
    temperatureDifference: temperature === 'degF' ? 'degF' : 'K',
    area,
    length: length === 'ft' ? ['in', 'ft'] : ['mm', 'm'],
    power: ['W', power],
  };
}

function subscribe(changed: () => void): () => void {
  if (listeners.size === 0) window.addEventListener('storage', refreshFromOtherTab);
  listeners.add(changed);
  return () => listeners.delete(changed);
}

function refreshFromOtherTab(event: StorageEvent): void {
  if (event.key === place) refresh();
}

function refresh(): void {
  present = read();
  for (const listener of listeners) listener();
}

function read(): Preferences {
  const kept = stored();
  const pick = <P extends keyof Preferences>(name: P): Preferences[P] =>
    allowed[name].find((value) => value === kept[name]) ?? usual[name];
  return {
    temperature: pick('temperature'),
    area: pick('area'),
    length: pick('length'),
    power: pick('power'),
    theme: pick('theme'),
    skill: pick('skill'),
  };
}

/** What was kept, whatever it is. Damaged preferences are not worth a message: the usual ones serve. */
function stored(): Readonly<Record<string, unknown>> {
  try {
    const kept: unknown = JSON.parse(localStorage.getItem(place) ?? '{}');
    return typeof kept === 'object' && kept !== null ? { ...kept } : {};
  } catch {
    return {};
  }
}
