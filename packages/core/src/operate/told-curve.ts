/** Told points of an alternator's curve that no machine of its nameplate comes near. */
import { curveSpeeds, partsOfKind, type BoatDescription, type QuantityId } from '../boat/index.ts';
import { fitAlternator } from '../physics/index.ts';

export interface MissedCurvePoint {
  readonly part: string;
  readonly quantity: QuantityId<'alternator'>;
  /** Shaft speed [rad/s] and told amps. */
  readonly speed: number;
  readonly told: number;
  /** What the nearest machine gives there [A]; undefined where the amps do not rise with speed to below the rated ones. */
  readonly nearest: number | undefined;
}

/** The points that cannot be met, by part. Without rated amps nothing is said of the rest. */
export function missedCurvePoints(description: BoatDescription): readonly MissedCurvePoint[] {
  return partsOfKind(description, 'alternator').flatMap(({ id, quantities }) => {
    const rated = quantities.rated_current?.value;
    if (rated === undefined) return [];
    const points = curveSpeeds.flatMap(([quantity, speed]) => {
      const current = quantities[quantity]?.value;
      return current === undefined ? [] : [{ quantity, speed, current }];
    });
    const missed = (point: (typeof points)[number], nearest: number | undefined): MissedCurvePoint => ({
      part: id,
      quantity: point.quantity,
      speed: point.speed,
      told: point.current,
      nearest,
    });
    const odd = points.filter(
      ({ current }, k) =>
        current > 0.98 * rated || current < Math.max(0.05 * rated, points[k - 1]?.current ?? 0),
    );
    if (odd.length > 0) return odd.map((point) => missed(point, undefined));
    const fit = fitAlternator({
      nominalVoltage: description.nominalVoltage,
      ratedCurrent: rated,
      points,
      ...(quantities.cut_in_speed === undefined ? {} : { cutInSpeed: quantities.cut_in_speed.value }),
    });
    if (fit.kind === 'fitted') return [];
    return fit.missed.map(({ speed, nearest }) =>
      missed(
        points.find((point) => point.speed === speed)!,
        nearest,
      ),
    );
  });
}
