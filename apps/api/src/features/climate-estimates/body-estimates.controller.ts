import { Body, Controller, Inject, Post } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { clockEstimate, clockEstimateInput, estimateHeat, estimateLift } from '#application';
import { ClockEstimateBody, EstimateClock, EstimateHeat, EstimateLift, HeatEstimateBody, LiftEstimateBody } from '#contracts';
import { type Call, CallOf } from '../../http/call.js';
import { Operation } from '../../http/operation.decorator.js';
import { Runner } from '../../http/runner.js';
import { presentClock, presentHeat, presentLift } from './body-estimates.presenter.js';
import { toClockQuestion, toHeatQuestion, toLiftQuestion } from './body-questions.js';

/** Clocks of things, and lifting and heat for people. Nothing is stored, so no Idempotency-Key is asked for. */
@Controller({ version: '1' })
@ApiTags('Estimates')
export class BodyEstimatesController {
  constructor(@Inject(Runner) private readonly runner: Runner) {}

  @Post('estimates/clock')
  @Operation({
    id: 'estimateClock',
    summary: 'Reckon the damage clocks of a history',
    description:
      'The mould clock over any history of temperature, humidity and wetness: dose (0 fresh, 1 the 48 h end of the rule of practice), hours left with the 24 to 72 h band that the sources span, stretch by stretch with what was measured, interpolated or assumed. Gaps up to 3 h are interpolated, longer ones count as the worse of both ends, then as saturated air at the last known temperature, at that outside, or at 25 °C; at or below 0 °C the clock stands still. Beside it the VTT mould index (Hukka and Viitanen 1999, classes of 2010), a second published model, and clocks of other damage by the hours of the rule book. Temperatures in °C (-30 to 60), humidity in %, times RFC 3339, at most 400 days and 5,000 readings. The temperature and humidity shape is published for wood; its use for other materials and the 48 h are our own calibration. Nothing is stored.',
    access: { scope: 'item:read' },
    speaks: true,
    problems: ['body_too_large', 'media_type_unsupported'],
    success: { status: 200, description: 'Where the clocks stand, and on what that rests.', body: ClockEstimateBody },
  })
  clock(@CallOf() call: Call, @Body({ schema: EstimateClock }) body: EstimateClock) {
    const { language } = call;
    const question = toClockQuestion(body);
    return this.runner.query(call, clockEstimateInput, question, (input) => ({ body: presentClock(clockEstimate(input), question, language), language }));
  }

  @Post('estimates/lift')
  @Operation({
    id: 'estimateLift',
    summary: 'Say who may lift a load, and how many',
    description:
      'The recommended weight limit of the revised NIOSH lifting equation (DHHS (NIOSH) 94-110, rev. 9/2021) at both ends of the lift, the lifting index, how many people lift it together by the shares of UK HSE L23 (1 to 3), or an aid. A wet bundle is weighed from its dry mass and stage. Lengths in cm, masses in kg, angles in degrees. The equation holds for standing two-handed lifts with room, a firm load, a dry floor, up to 8 hours, in air of 19 to 26 °C and 35 to 50 %: outside of it the answer is no number but an aid or a trained person. Nothing is stored.',
    access: { scope: 'item:read' },
    speaks: true,
    problems: ['body_too_large', 'media_type_unsupported'],
    success: { status: 200, description: 'The limit and the crew, or why there is no number.', body: LiftEstimateBody },
  })
  lift(@CallOf() call: Call, @Body({ schema: EstimateLift }) body: EstimateLift) {
    const { language } = call;
    return this.runner.query(call, estimateLift, toLiftQuestion(body), (estimate) => ({ body: presentLift(estimate, language), language }));
  }

  @Post('estimates/heat')
  @Operation({
    id: 'estimateHeat',
    summary: 'Judge protection and heat together for a step',
    description:
      'Wet-bulb globe temperature from a meter, its thermometers or an estimate from the air, with what the clothing adds; minutes of work in each hour against the NIOSH 2016-106 limits (unacclimatised unless told), rounded down to quarters of an hour, resting in the same place; share of the shift by day in the heat; longest spell without somebody looking; heat index for display. 0 minutes stop the step. Temperatures in °C. Estimates from air hold for a hall without radiant heat, or outdoors in moderate sun and light wind. No table holds for fully encapsulating suits. Nothing is stored.',
    access: { scope: 'item:read' },
    speaks: true,
    problems: ['body_too_large', 'media_type_unsupported'],
    success: { status: 200, description: 'Minutes and cautions.', body: HeatEstimateBody },
  })
  heat(@CallOf() call: Call, @Body({ schema: EstimateHeat }) body: EstimateHeat) {
    const { language } = call;
    return this.runner.query(call, estimateHeat, toHeatQuestion(body), (estimate) => ({ body: presentHeat(estimate, language), language }));
  }
}
