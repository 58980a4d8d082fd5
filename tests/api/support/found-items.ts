/** Found things, who claims them at the desk, and the two who decide: each with a key of their own. */
import { reserveTestTags, type TestClient } from '#testing';
import type { Workbench } from './workbench.js';

export const MARKS = [{ question: 'What is sewn into the hem?', answer: 'Two brass bells' }, { question: 'What is written on the back?', answer: 'For Ottilie, 1961' }];
export const PLACE = 'In the hedge below the Karmesin mill';
export const FINDER = 'Walker Xanthippe Zwirbel, 0699-271828';

export interface Claim {
  id: string;
  itemId: string;
  householdId: string;
  state: string;
  reason: string | null;
  acceptances: number;
  toTell: string;
}

/** Three desks with three keys: who takes answers, and two who decide. */
export class ClaimDesks {
  private constructor(
    readonly bench: Workbench,
    readonly desk: TestClient,
    readonly lead: TestClient,
    readonly second: TestClient,
  ) {}

  static async open(bench: Workbench): Promise<ClaimDesks> {
    const client = async () => bench.network.as(await bench.network.newKey());
    return new ClaimDesks(bench, await client(), await client(), await client());
  }

  person(code: string): string {
    return this.bench.incident.person(code);
  }

  async found(change: object = {}): Promise<{ id: string; itemId: string }> {
    const { network, incident } = this.bench;
    const [tag] = await reserveTestTags(network, incident, 1);
    const body = { siteId: incident.site(), tag, description: 'Quilt, red and white', materialClass: 'textile-quilt-padded', sizeClass: 'double-quilt', photographRef: 'photo-1', foundOn: '2026-05-08', foundPlace: PLACE, finder: FINDER, personId: this.person('P4'), marks: MARKS, ...change };
    return (await network.post(`/v1/incidents/${incident.id}/found-items`, body).expect(201)).body;
  }

  async questions(itemId: string): Promise<{ markId: string; question: string }[]> {
    return (await this.bench.network.get(`/v1/items/${itemId}/found-record`).expect(200)).body.questions;
  }

  /** As sent; with an answer to every question. */
  async claiming(itemId: string, householdId: string, answers: string[] = ['Little bells', 'A name'], change: object = {}) {
    const questions = await this.questions(itemId);
    return this.desk.post(`/v1/items/${itemId}/ownership-claims`, { householdId, takenBy: this.person('P3'), statement: 'It lay on her bed.', answers: answers.map((answer, index) => ({ markId: questions[index]?.markId, answer })), ...change });
  }

  async claim(itemId: string, householdId: string, answers?: string[]): Promise<Claim> {
    const answer = await this.claiming(itemId, householdId, answers);
    if (answer.status !== 201) throw new Error(`the claim was refused: ${JSON.stringify(answer.body)}`);
    return answer.body as Claim;
  }

  look(client: TestClient, claimId: string, code: string) {
    return client.get(`/v1/ownership-claims/${claimId}/comparison?personId=${this.person(code)}`);
  }

  decide(client: TestClient, claimId: string, code: string, body: object = { accepts: true }) {
    return client.post(`/v1/ownership-claims/${claimId}/decisions`, { personId: this.person(code), ...body });
  }

  /** Both look at it. */
  async seen(claimId: string): Promise<void> {
    await this.look(this.lead, claimId, 'P1').expect(200);
    await this.look(this.second, claimId, 'P2').expect(200);
  }

  /** Both look, and both accept. */
  async grant(claimId: string): Promise<Claim> {
    await this.seen(claimId);
    await this.decide(this.lead, claimId, 'P1').expect(201);
    return (await this.decide(this.second, claimId, 'P2').expect(201)).body as Claim;
  }
}
