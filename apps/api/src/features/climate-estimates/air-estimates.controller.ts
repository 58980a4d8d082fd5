import { Body, Controller, Inject, Post } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { type AcceptanceReckoner, airEstimateInput, dryingEstimate, roomEstimate } from '#application';
import { AcceptanceEstimateBody, DryingEstimateBody, EstimateAcceptance, EstimateDrying, EstimateRoom, RoomEstimateBody } from '#contracts';
import { type Call, CallOf } from '../../http/call.js';
import { Operation } from '../../http/operation.decorator.js';
import { Runner } from '../../http/runner.js';
import { ACCEPTANCE } from '../../http/tokens.js';
import { presentAcceptance, presentDrying, presentRoom } from './air-estimates.presenter.js';

/** Drying, rooms and what they can take, of what is only described. Nothing is stored, so no Idempotency-Key is asked for. */
@Controller({ version: '1' })
@ApiTags('Estimates')
export class AirEstimatesController {
  constructor(@Inject(Runner) private readonly runner: Runner, @Inject(ACCEPTANCE) private readonly reckoner: AcceptanceReckoner) {}

  @Post('estimates/drying')
  @Operation({
    id: 'estimateDrying',
    summary: 'Reckon how long a thing takes to dry',
    description:
      'One thing in steady air: wet bulb, dew point, humidity ratio, enthalpy and volume of the air (ASHRAE Fundamentals 2017); the water it gives off while wet through (pool equation at the wet bulb, with a factor for how the air reaches it); hours to its dry target with their band, or never where the air is too damp. Temperatures in °C, humidity in %, masses in kg, areas in m2, speed in m/s. Valid for 1 to 45 °C, best for 5 to 98 %, 0 to 2 m/s, thin goods below about 5 mm; thick and closed goods get a band and no number. The level is trusted to 30 % either way until fitted from weighings: send the fitted factor and its interval. What is left out is assumed on the cautious side and named in `notes`. No sun is counted. Nothing is stored.',
    access: { scope: 'item:read' },
    speaks: true,
    problems: ['body_too_large', 'media_type_unsupported'],
    success: { status: 200, description: 'Hours, and on what they rest.', body: DryingEstimateBody },
  })
  drying(@CallOf() call: Call, @Body({ schema: EstimateDrying }) body: EstimateDrying) {
    const { language } = call;
    return this.runner.query(call, airEstimateInput<EstimateDrying>, body, (input) => ({ body: presentDrying(dryingEstimate(input), input, language), language }));
  }

  @Post('estimates/room')
  @Operation({
    id: 'estimateRoom',
    summary: 'Reckon a drying room, and what would change it',
    description:
      'The balance of water in a room: what wet goods give off, what machines take out (label at its rating point, derated by the published NREL curve), what outdoor air carries in or out. Steady humidity while all is wet, the course hour by hour, when each thing is dry with its band, mould dose by the clock of the rule of practice, condensation, electric power and heat, warnings; then what one more machine, a fan, windows or fewer things would change, best first. A fan without more dehumidification is warned of; windows are recommended only where outdoor air is drier. Temperatures in °C, humidity in %, kg/h, kW; outdoor air in changes an hour. Valid for rooms of 1 to 45 °C, well mixed, held at their temperature; up to 60 kinds of goods and 120 h. Machines count as told by their labels (real removal; acceptance counts at most the label). Wiring is for a licensed electrician. Nothing is stored.',
    access: { scope: 'item:read' },
    speaks: true,
    problems: ['body_too_large', 'media_type_unsupported'],
    success: { status: 200, description: 'The room over the hours to come.', body: RoomEstimateBody },
  })
  room(@CallOf() call: Call, @Body({ schema: EstimateRoom }) body: EstimateRoom) {
    const { language } = call;
    return this.runner.query(call, airEstimateInput<EstimateRoom>, body, (input) => ({ body: presentRoom(roomEstimate(input), input, language), language }));
  }

  @Post('estimates/acceptance')
  @Operation({
    id: 'estimateAcceptance',
    summary: 'Say how many more things a room can take now',
    description:
      'Down the list of what waits, most important first: how many of each may be hung now so that all of it, and what hangs already, is dry within the time and its mould clock, the air stays below the cap, and the rack holds it; which limit binds; how many of each kind could be hung alone; what the room sheds hour after hour at its cap. What is refused leaves its place to what comes after it. Machines count at most their label, because this is a promise. Humidity in %, masses in kg, areas in m2, times in h. Valid as for POST /v1/estimates/room; up to 12 kinds waiting, 40 hanging. An estimate from the room as told: weigh, watch the hygrometer and ask again. Nothing is stored.',
    access: { scope: 'item:read' },
    speaks: true,
    problems: ['body_too_large', 'media_type_unsupported'],
    success: { status: 200, description: 'What may be hung now.', body: AcceptanceEstimateBody },
  })
  acceptance(@CallOf() call: Call, @Body({ schema: EstimateAcceptance }) body: EstimateAcceptance) {
    const { language, context } = call;
    return this.runner.query(call, airEstimateInput<EstimateAcceptance>, body, async (input) => ({
      body: presentAcceptance(await this.reckoner.estimate(context.networkId, input), input, language), language,
    }));
  }
}
