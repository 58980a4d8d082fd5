import { say, type Message } from '#care';
import type { WeighingCode } from '#climate';

/** What the weighings of a thing say. Who takes it down still feels and looks: weight tells nothing of a damp seam in a dry quilt. */
export const WEIGHING_WORDS: Readonly<Record<WeighingCode, Message>> = {
  'at-target': say('Ready by weight. Feel seams and the thickest place, and look inside what is thick or closed; then keep it at or below 65 % humidity.'),
  'at-rest': say('It has come to rest in dry air: ready by weight. Feel seams and the thickest place, and look inside what is thick or closed; then keep it at or below 65 % humidity.'),
  'above-target': say('Not yet: by weight it still holds water.'),
  'still-falling': say('Not yet: it is still losing weight.'),
  'air-too-damp': say('Not yet, and not in this air: it would come to rest damp. Lower the humidity first.'),
  'near-target': say('It is close to dry, and the scale cannot tell yet: weigh it again.'),
  'one-weighing': say('One weighing cannot tell, because its dry weight is not known well enough: weigh it again.'),
  'interval-too-short': say('Too soon after the weighing before: a thing still damp would not show it yet. Weigh it again.'),
  'scale-too-coarse': say('This scale is too coarse for this thing: use a finer one, or weigh several like things together.'),
  'weight-went-up': say('It grew heavier: weigh it again, and see whether it was wetted or mixed up.'),
  'air-not-known': say('Nobody has read the air here: read it first, the weight alone cannot tell.'),
};
