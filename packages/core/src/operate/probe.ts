/** What an instrument is put to. Terminals are `part.terminal`. */
import type { Terminal } from '../boat/index.ts';

export type Probe =
  /** Volts from `plus` to `minus`. */
  | { readonly kind: 'dc-volts'; readonly plus: Terminal; readonly minus: Terminal }
  /** AC rms volts between two terminals (ripple). */
  | {
      readonly kind: 'ac-volts';
      readonly plus: Terminal;
      readonly minus: Terminal;
      readonly alternator: string;
    }
  /** Amps out of an alternator's stud (clamp). */
  | { readonly kind: 'alternator-amps'; readonly alternator: string }
  /** Amps into a bank (clamp); charging is positive. */
  | { readonly kind: 'battery-amps'; readonly battery: string }
  /** Ohms through brushes and rotor, leads off. */
  | { readonly kind: 'field-ohms'; readonly alternator: string }
  /** Amps of the field. */
  | { readonly kind: 'field-amps'; readonly alternator: string }
  /** Volts shown by a panel gauge. */
  | { readonly kind: 'gauge-volts'; readonly gauge: string }
  /** What a panel gauge shows, less what a meter reads at the gauge's own terminals at the same moment. */
  | { readonly kind: 'gauge-error'; readonly gauge: string }
  /** Volts at the posts of a bank that was filled, rested and taken off, `seconds` after `amps` are drawn from it. */
  | {
      readonly kind: 'filled-volts';
      readonly battery: string;
      readonly amps: number;
      readonly seconds: number;
    }
  /** Amps on the label of an alternator. */
  | { readonly kind: 'label-amps'; readonly alternator: string }
  /** Ampere-hours on the labels of a bank [C]. */
  | { readonly kind: 'label-amp-hours'; readonly battery: string }
  /** Case temperature of an alternator [K]. */
  | { readonly kind: 'case-temperature'; readonly alternator: string }
  /** Slip of the belt, share of speed lost, by strobe or optical tachometer. */
  | { readonly kind: 'belt-slip'; readonly alternator: string }
  /** Diameter of the engine's pulley over the alternator's, by caliper or tape. */
  | { readonly kind: 'pulley-ratio'; readonly alternator: string }
  /** Speed of the alternator's shaft [rad/s]. */
  | { readonly kind: 'shaft-speed'; readonly alternator: string }
  /** Relative spread of specific gravity between the cells of a bank. */
  | { readonly kind: 'gravity-spread'; readonly battery: string };
