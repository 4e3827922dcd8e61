import { firstComebacks } from '../../patterns/do-repairs-hold.ts';
import { remembered } from './remembered.ts';

/** When the board of a repair first came back, in milliseconds, by the repair's id. */
export const comebacksOf = remembered(({ data }) => firstComebacks(data.repairs.values()));
