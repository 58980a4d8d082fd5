import { type IncidentOnTest, reserveTestTags, startTestServer, takeInTestHousehold, takeInTestItem, type TestNetwork, type TestServer } from '#testing';
import { OWNER_SAYS_YES } from './workbench.js';

export const VALID_TO = '2026-06-30T00:00:00Z';

interface Side {
  network: TestNetwork;
  incident: IncidentOnTest;
}

/** Two networks on one service, of which the first may hand things over to the second. All through the API. */
export class AidBench {
  private constructor(
    readonly server: TestServer,
    readonly giver: Side,
    readonly receiver: Side,
    readonly agreementId: string,
  ) {}

  static async open(): Promise<AidBench> {
    const server = await startTestServer();
    const sides: Side[] = [];
    for (const name of ['Lower Vale', 'Upper Vale']) {
      const network = await server.network(name);
      sides.push({ network, incident: await network.incident() });
    }
    const [giver, receiver] = sides as [Side, Side];
    return new AidBench(server, giver, receiver, await agree(giver, receiver));
  }

  close(): Promise<void> {
    return this.server.close();
  }

  /** A quilt of the giver, with its family's yes to a referral unless told otherwise. */
  async quilt(consents: object[] = OWNER_SAYS_YES) {
    const { network, incident } = this.giver;
    return takeInTestItem(network, incident, await takeInTestHousehold(network, incident, consents), { familyWords: 'Grandmother Ilse sewed it' });
  }

  offer(itemId: string, change: object = {}) {
    return this.giver.network.post(`/v1/aid-agreements/${this.agreementId}/offers`, { itemId, personId: this.giver.incident.person('P1'), ...change });
  }

  async offered(): Promise<{ itemId: string; offerId: string }> {
    const { id: itemId } = await this.quilt();
    return { itemId, offerId: (await this.offer(itemId).expect(201)).body.id as string };
  }

  async accept(offerId: string, change: object = {}) {
    const { network, incident } = this.receiver;
    const [tag] = await reserveTestTags(network, incident, 1);
    return network.post(`/v1/aid-offers/${offerId}/acceptances`, { siteId: incident.site(), tag, ...change });
  }

  /** A quilt that the receiver holds. */
  async lent(): Promise<{ itemId: string; offerId: string; theirItemId: string }> {
    const { itemId, offerId } = await this.offered();
    const accepted = await this.accept(offerId);
    if (accepted.status !== 201) throw new Error(`not accepted: ${JSON.stringify(accepted.body)}`);
    return { itemId, offerId, theirItemId: accepted.body.item.id as string };
  }

  async chainOf(side: 'giver' | 'receiver', itemId: string): Promise<{ kind: string; hash: string; seq: number; refs: Record<string, string>; to: { kind: string; id: string } }[]> {
    return (await this[side].network.get(`/v1/items/${itemId}/custody-events`).expect(200)).body.items;
  }

  /** Everything of both networks that a refused command must leave alone. */
  async records(): Promise<unknown> {
    const { rows } = await this.server.admin.query(`select network_id, id, seq, keeper_kind, keeper_id, stage, hand_over_id from item order by network_id, id`);
    const offers = await this.server.admin.query('select network_id, id, state, item_id from aid_offer order by network_id, id');
    return { items: rows, offers: offers.rows };
  }
}

export async function agree(giver: Side, receiver: Side): Promise<string> {
  const { body } = await giver.network.post(`/v1/incidents/${giver.incident.id}/aid-agreements`, { partnerName: 'Upper Vale', validTo: VALID_TO }).expect(201);
  await receiver.network.post(`/v1/incidents/${receiver.incident.id}/aid-agreements/joinings`, { invitation: body.invitation }).expect(201);
  return body.id as string;
}
