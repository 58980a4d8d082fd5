/** The same incident with a little more of one thing; every change only widens what may be done. */
import type { Interval, PlanProblem } from '#planning';

const longer = (intervals: readonly Interval[]): Interval[] => intervals.map(({ from, to }) => ({ from: Math.max(0, from - 1), to: to + 1 }));

/** Kinds of more, by name. */
export const MORE: Readonly<Record<string, (problem: PlanProblem) => PlanProblem>> = {
  'one more unit of each station': (problem) => ({ ...problem, stations: problem.stations.map((station) => ({ ...station, capacity: station.capacity + 1 })) }),
  'stations open longer': (problem) => ({ ...problem, stations: problem.stations.map((station) => ({ ...station, open: longer(station.open) })) }),
  'another station': (problem) => ({ ...problem, stations: [...problem.stations, { ...problem.stations[0]!, id: 'another', steps: ['rinse', 'blot', 'assess'] }] }),
  'one more person': (problem) => ({ ...problem, people: [...problem.people, { id: 'one-more', siteId: 'hall', skills: ['rinsing', 'colour-testing'], restrictions: [], shifts: [{ from: 0, to: problem.horizonSlots }], fitUntilSlot: problem.horizonSlots }] }),
  'longer shifts': (problem) => ({ ...problem, people: problem.people.map((person) => ({ ...person, shifts: longer(person.shifts) })) }),
  'more drying area': (problem) => ({ ...problem, places: problem.places.map((place) => ({ ...place, areaDm2: place.areaDm2 + 3, open: longer(place.open) })) }),
  'drier air': (problem) => ({ ...problem, rooms: problem.rooms.map((room) => ({ ...room, removalGPerSlot: room.removalGPerSlot.map((entry) => ({ ...entry, limit: entry.limit + 3 })) })) }),
  'more freezer': (problem) => ({ ...problem, freezers: [...problem.freezers.map((freezer) => ({ ...freezer, volumeCl: freezer.volumeCl + 2, open: longer(freezer.open) })), { id: 'another', siteId: 'hall', volumeCl: 4, open: [{ from: 0, to: problem.horizonSlots }] }] }),
  'one more unit of each service': (problem) => ({ ...problem, services: (problem.services ?? []).map((service) => ({ ...service, capacity: service.capacity + 1, open: longer(service.open) })) }),
};
