import { comebacksAmong } from '../../domain/comebacks.ts';
import { remembered } from './remembered.ts';

/** Which boards came back, and when, by the id of the repair before. */
export const comebacksOf = remembered(({ data }) => comebacksAmong(data.repairs.values()));
