import type { FamilyModel } from '../model.ts';
import {
  backlight, badJoint, bridge, bulk, bulkCapacitor, controller, diode, failing, fuse, mainRail, mains, noFault, resistor, standby,
  takes, transistor,
} from '../parts.ts'; // prettier-ignore

/** No boost stage, so that the bulk follows the mains. The standby controller is its weak part. */
export const PLOVER: FamilyModel = {
  name: 'PLOVER-32',
  boost: false,
  weight: 34,
  since: Date.UTC(2025, 0, 1),
  parts: [
    fuse('F1'),
    bridge('BR1', 0.53),
    bulkCapacitor('C1', 310e3, 82e-6),
    transistor('Q1', 'drain/source', Infinity, 22e6),
    resistor('R1', 'source/primary ground', 0.33),
    controller('U1', 'D→GND', 'standby drain/primary ground', 420e3, 1.3e6),
    diode('D2', '5V winding/5V standby', 0.31),
    diode('D3', '12V winding/12V main', 0.36),
    transistor('Q3', 'backlight drain/backlight source', 9e6, 14e6),
    diode('D4', 'backlight drain/backlight', 0.46),
    controller('U2', 'OUT→GND', 'backlight gate/secondary ground', 38e3, 210e3),
  ],
  rails: [mains, bulk(0), standby(5), mainRail(12), backlight(62)],
  habit: ['F1'],
  stories: [
    failing(
      'standby controller',
      30,
      [[['U1', 'shorted'], 7], [['U1', 'leaky'], 2]],
      [takes('F1', 'open', 0.7), takes('BR1', 'shorted', 0.12)],
      [['no standby light', 7], ['clicking or cycling', 1], ['burnt smell', 1]],
    ),
    failing(
      'main switch',
      22,
      [[['Q1', 'shorted'], 1]],
      [takes('F1', 'open', 0.92), takes('R1', 'open', 0.6), takes('BR1', 'shorted', 0.3), takes('U1', 'leaky', 0.12)],
      [['no standby light', 6], ['blows the house breaker', 2], ['burnt smell', 2]],
    ),
    failing(
      'standby rectifier',
      8,
      [[['D2', 'shorted'], 3], [['D2', 'leaky'], 1]],
      [takes('U1', 'leaky', 0.1)],
      [['no standby light', 2], ['clicking or cycling', 4]],
    ),
    failing(
      'main rectifier',
      7,
      [[['D3', 'shorted'], 1]],
      [],
      [['light on but will not start', 3], ['clicking or cycling', 2]],
    ),
    failing(
      'backlight transistor',
      14,
      [[['Q3', 'shorted'], 4], [['D4', 'shorted'], 1]],
      [takes('U2', 'leaky', 0.35, 'Q3'), takes('D4', 'shorted', 0.15, 'Q3')],
      [['sound but no picture', 6], ['starts then shuts down', 2]],
    ),
    failing(
      'backlight driver',
      5,
      [[['U2', 'open'], 1]],
      [],
      [['sound but no picture', 5], ['flicker', 1]],
      { backlight: 0.2 },
    ),
    failing(
      'worn bulk capacitor',
      6,
      [[['C1', 'open'], 1]],
      [],
      [['flicker', 3], ['starts then shuts down', 3]],
      { bulk: 0.8, '12V main': 0.93 },
    ),
    badJoint(6, [['starts then shuts down', 3], ['flicker', 2]], { '12V main': 0.9 }),
    noFault(5),
  ],
}; // prettier-ignore
