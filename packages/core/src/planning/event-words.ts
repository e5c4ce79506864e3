/** What happens in a run, in words; and where it can hurt machine or boat, the caution that goes with it.
 *  Load dump: an alternator's current cannot stop at once, and its voltage jumps when nothing takes it: to 79 to 101 V in
 *  a 12 V system for up to 0.4 s, 151 to 202 V in a 24 V one [ISO16750-2, test A without suppression, from memory].
 *  What it damages and how it is kept away: common practice. */
import type { ProtectionState } from '../physics/lithium.ts';
import type { RunEvent, RunEventKind } from '../operate/index.ts';

const words: Readonly<Record<RunEventKind, string>> = {
  'engine-started': 'engine started',
  'engine-stopped': 'engine stopped',
  'engine-stalls': 'engine would stall: its alternators ask more than it can give at this speed',
  'relay-closed': 'relay closed',
  'relay-opened': 'relay opened',
  'charging-opened': 'protection stops charging',
  'charging-closed': 'protection lets charging in again',
  'discharging-opened': 'protection stops discharging',
  'discharging-closed': 'protection lets discharging go on',
  'load-dump': 'load dump: its bank is cut off while it charges',
  'without-bank': 'works without a bank that takes its charge',
  'fuse-melted': 'fuse melts and stays open',
  bulk: 'bulk',
  absorption: 'absorption',
  float: 'float',
};

const reasons: Readonly<Record<ProtectionState['reason'], string>> = {
  none: '',
  'over-voltage': 'cell voltage too high',
  'under-voltage': 'cell voltage too low',
  cold: 'too cold to charge',
  hot: 'too hot',
  'over-current': 'more current than it lets through',
};

const cautions: Partial<Readonly<Record<RunEventKind, string>>> = {
  'engine-stalls':
    'Run faster, or let the regulator ask less of the field at idle: an outside one that starts late, ramps up slowly or caps the field does so. What is shown after this is with the engine standing.',
  'charging-opened':
    'The bank protects itself. Find out why before charging on: set-point, temperature, current, one cell apart from the others. The maker’s limits come first.',
  'discharging-opened':
    'Everything that lives on this bank alone goes dark: navigation lights, radio and engine start too.',
  'load-dump':
    'Its voltage can jump to several times the usual for some tenths of a second. That can break its diodes and its regulator, and electronics on the same circuit. Common practice: a second bank that stays joined, a suppressor, or a protection that shuts the field off before it opens. Never open the charge path of a running alternator by hand.',
  'without-bank':
    'Without a bank nothing smooths its voltage: each load that is switched off lets it jump, which can break diodes, regulator and electronics. Stop the engine, or its field, until a bank takes charge.',
  'fuse-melted':
    'It carried more than it can for as long as its standard allows at most; a real one may melt sooner. Never fit a larger one to stop that: the fuse protects the cable, which would burn in its place. Find what draws so much, and isolate the banks before touching the holder. Local codes give the size that suits cable and machine.',
};

/** An event without its part: "protection stops charging (cell voltage too high)". */
export function eventWords({ kind, reason, current, share, assumedLimit }: RunEvent): string {
  const more = [
    ...(reason === undefined || reason === 'none' ? [] : [reasons[reason]]),
    ...(share === undefined ? [] : [`${(100 * share).toFixed(0)} %`]),
    ...(current === undefined ? [] : [`${current.toFixed(0)} A`]),
    ...(assumedLimit === undefined
      ? []
      : [
          kind === 'fuse-melted'
            ? `its rating of ${assumedLimit.toFixed(0)} A is assumed from its cable`
            : `its limit of ${assumedLimit.toFixed(0)} A is assumed`,
        ]),
  ];
  return more.length === 0 ? words[kind] : `${words[kind]} (${more.join(', ')})`;
}

/** What to mind where an event can do harm. */
export function eventCaution(kind: RunEventKind): string | undefined {
  return cautions[kind];
}
