import { Body, Controller, Inject, Param, Patch } from '@nestjs/common';
import { ApiConsumes, ApiTags } from '@nestjs/swagger';
import type { z } from 'zod';
import { changeDehumidifier, changeFreezer, changePerson, changeShift, changeSpecialist, changeStation } from '#application';
import {
  ChangeDehumidifier, ChangeFreezer, ChangePerson, ChangeShift, ChangeSpecialist, ChangeStation, DehumidifierBody, DehumidifierParams, FreezerBody, FreezerParams, PersonBody, PersonParams, ShiftBody, ShiftParams, SpecialistBody, SpecialistParams, StationBody, StationParams,
} from '#contracts';
import { type Call, CallOf } from '../../http/call.js';
import { Operation } from '../../http/operation.decorator.js';
import { Runner } from '../../http/runner.js';
import { presentDehumidifier, presentFreezer, presentPerson, presentShift, presentSpecialist, presentStation } from './layout.presenter.js';

const MERGE_PATCH = 'application/merge-patch+json';

/** What changes in the middle of a day: each change names the version that its reader saw. */
@Controller({ version: '1' })
@ApiTags('Incidents')
export class LayoutChangesController {
  constructor(@Inject(Runner) private readonly runner: Runner) {}

  @Patch('incidents/:incidentId/stations/:stationId')
  @ApiConsumes(MERGE_PATCH)
  @Operation({
    id: 'changeStation',
    summary: 'Change a station',
    description: 'Opens or closes it, or changes its name or how many items it takes at once. A new plan is asked for separately.',
    access: { scope: 'incident:write' },
    command: true,
    conditional: true,
    problems: ['not_found', 'incident_closed'],
    success: { status: 200, description: 'The station as it is now.', body: StationBody },
  })
  station(@CallOf() call: Call, @Param({ schema: StationParams }) { incidentId, stationId }: z.output<typeof StationParams>, @Body({ schema: ChangeStation }) body: ChangeStation) {
    return this.runner.configCommand(call, changeStation, { ...body, incidentId, id: stationId, expectedVersion: call.expectedVersion() }, (view) => ({ body: presentStation(view), version: view.station.version }));
  }

  @Patch('incidents/:incidentId/dehumidifiers/:dehumidifierId')
  @ApiConsumes(MERGE_PATCH)
  @Operation({
    id: 'changeDehumidifier',
    summary: 'Change a dehumidifier',
    description: 'Says that it runs, has tripped or is off. The air of its room limits how much can dry; a new plan is asked for separately.',
    access: { scope: 'station:work' },
    command: true,
    conditional: true,
    problems: ['not_found', 'incident_closed'],
    success: { status: 200, description: 'The dehumidifier as it is now.', body: DehumidifierBody },
  })
  dehumidifier(@CallOf() call: Call, @Param({ schema: DehumidifierParams }) { incidentId, dehumidifierId }: z.output<typeof DehumidifierParams>, @Body({ schema: ChangeDehumidifier }) body: ChangeDehumidifier) {
    return this.runner.configCommand(call, changeDehumidifier, { ...body, incidentId, id: dehumidifierId, expectedVersion: call.expectedVersion() }, (thing) => ({ body: presentDehumidifier(thing), version: thing.version }));
  }

  @Patch('incidents/:incidentId/shifts/:shiftId')
  @ApiConsumes(MERGE_PATCH)
  @Operation({
    id: 'changeShift',
    summary: 'Change the end of a shift',
    description: 'Somebody goes home or stays longer. An end at the start says that nobody came. A new plan is asked for separately.',
    access: { scope: 'station:work' },
    command: true,
    conditional: true,
    problems: ['not_found', 'incident_closed'],
    success: { status: 200, description: 'The shift as it is now.', body: ShiftBody },
  })
  shift(@CallOf() call: Call, @Param({ schema: ShiftParams }) { incidentId, shiftId }: z.output<typeof ShiftParams>, @Body({ schema: ChangeShift }) body: ChangeShift) {
    return this.runner.configCommand(call, changeShift, { ...body, incidentId, id: shiftId, expectedVersion: call.expectedVersion() }, (shift) => ({ body: presentShift(shift), version: shift.version }));
  }

  @Patch('incidents/:incidentId/people/:personId')
  @ApiConsumes(MERGE_PATCH)
  @Operation({
    id: 'changePerson',
    summary: 'Change what is known of a person',
    description: 'A skill that was learned, a restriction that is declared (never a diagnosis, and nobody asks why), the last day on which medical fitness and fit test for a tight respirator are valid (null when there is none). Lists are given whole. Other skills or restrictions ask for a new plan.',
    access: { scope: 'incident:write' },
    command: true,
    conditional: true,
    problems: ['not_found', 'incident_closed'],
    success: { status: 200, description: 'The person as it is now.', body: PersonBody },
  })
  person(@CallOf() call: Call, @Param({ schema: PersonParams }) { incidentId, personId }: z.output<typeof PersonParams>, @Body({ schema: ChangePerson }) body: ChangePerson) {
    return this.runner.configCommand(call, changePerson, { ...body, incidentId, id: personId, expectedVersion: call.expectedVersion() }, (view) => ({ body: presentPerson(view), version: view.person.version }));
  }

  @Patch('incidents/:incidentId/freezers/:freezerId')
  @ApiConsumes(MERGE_PATCH)
  @Operation({
    id: 'changeFreezer',
    summary: 'Change a freezer',
    description: 'Its volume, or the moment from which it can be used. A volume below what stands in it is taken: a broken freezer is a fact, and what it holds is planned anew.',
    access: { scope: 'incident:write' },
    command: true,
    conditional: true,
    problems: ['not_found', 'incident_closed'],
    success: { status: 200, description: 'The freezer as it is now.', body: FreezerBody },
  })
  freezer(@CallOf() call: Call, @Param({ schema: FreezerParams }) { incidentId, freezerId }: z.output<typeof FreezerParams>, @Body({ schema: ChangeFreezer }) body: ChangeFreezer) {
    return this.runner.configCommand(call, changeFreezer, { ...body, incidentId, id: freezerId, expectedVersion: call.expectedVersion() }, (freezer) => ({ body: presentFreezer(freezer), version: freezer.version }));
  }

  @Patch('incidents/:incidentId/specialists/:specialistId')
  @ApiConsumes(MERGE_PATCH)
  @Operation({
    id: 'changeSpecialist',
    summary: 'Change what a specialist can take',
    description: 'How many things are on the bench at once, how many hours a thing takes there, which materials, and when: as the specialist said it. `piecesAtOnce` and `hoursPerPiece` go together; null says that they are not known. Lists are given whole, and an empty one or null stands for every material, or for whenever. Plans reckon with those of whom it is known, so this asks for a new plan. It sends nothing: a thing goes out with `referItem`, with its rules of consent.',
    access: { scope: 'incident:write' },
    command: true,
    conditional: true,
    problems: ['not_found', 'incident_closed'],
    success: { status: 200, description: 'The specialist as they are on record now.', body: SpecialistBody },
  })
  specialist(@CallOf() call: Call, @Param({ schema: SpecialistParams }) { incidentId, specialistId }: z.output<typeof SpecialistParams>, @Body({ schema: ChangeSpecialist }) body: ChangeSpecialist) {
    return this.runner.configCommand(call, changeSpecialist, { ...body, incidentId, id: specialistId, expectedVersion: call.expectedVersion() }, (specialist) => ({ body: presentSpecialist(specialist), version: specialist.version }));
  }
}
