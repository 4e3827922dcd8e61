import type { FamilyModel } from '../model.ts';
import {
  backlight, bridge, bulk, bulkCapacitor, controller, diode, failing, fuse, mainRail, mains, noFault, resistor, standby, takes, transistor,
} from '../parts.ts'; // prettier-ignore

/** New on the bench since 9 March 2026; nobody has set bands for it. */
export const SISKIN: FamilyModel = {
  name: 'SISKIN-40',
  boost: true,
  weight: 36,
  since: Date.UTC(2026, 2, 9),
  parts: [
    fuse('F1'),
    bridge('BR1', 0.52),
    transistor('Q1', 'boost drain/boost source', 300e3, 16e6),
    diode('D1', 'boost drain/bulk', 0.43),
    bulkCapacitor('C1', 260e3, 100e-6),
    resistor('R1', 'boost source/primary ground', 0.15),
    controller('U1', 'D→GND', 'standby drain/primary ground', 470e3, 1.4e6),
    diode('D2', '5V winding/5V standby', 0.3),
    diode('D3', '13V winding/13V main', 0.35),
    transistor('Q3', 'backlight drain/backlight source', Infinity, Infinity),
    diode('D4', 'backlight drain/backlight', 0.46),
    controller('U2', 'OUT→GND', 'backlight gate/secondary ground', 41e3, 240e3),
  ],
  rails: [mains, bulk(385), standby(5), mainRail(13), backlight(84)],
  habit: ['F1', 'BR1'],
  stories: [
    failing(
      'backlight transistor',
      40,
      [[['Q3', 'shorted'], 1]],
      [takes('D4', 'shorted', 0.3), takes('U2', 'leaky', 0.3)],
      [['sound but no picture', 4], ['starts then shuts down', 1]],
    ),
    failing(
      'boost transistor',
      35,
      [[['Q1', 'shorted'], 1]],
      [takes('F1', 'open', 0.9), takes('BR1', 'shorted', 0.3), takes('R1', 'open', 0.5)],
      [['no standby light', 4], ['blows the house breaker', 1]],
    ),
    failing('main rectifier', 15, [[['D3', 'shorted'], 1]], [], [['light on but will not start', 1]]),
    noFault(10),
  ],
}; // prettier-ignore
