/** The patients and orders of one scope, worked out. */
import { decimal } from '../../engine/index.ts';
import type { Entity } from '../model.ts';
import { scrutiniseOrder, scrutinisePatient } from '../order-checks/index.ts';
import type { WorkedOrder, WorkedPatient } from '../order-model.ts';
import { type Desk, Reporter } from '../reporter.ts';
import { type OrderSurroundings, workOrders } from './binder.ts';
import { readPatient } from './patients.ts';
import { courseOf, endOfOrders, type OrderScene, sceneOf } from './scene.ts';

/** h: the longest that limits of the serum sodium look at. */
const TWO_DAYS = decimal(48);

export class Bedside {
  private readonly patients: ReadonlyMap<Entity, WorkedPatient>;
  private readonly orders: ReadonlyMap<Entity, WorkedOrder>;
  private readonly scenes = new Map<WorkedPatient, OrderScene>();
  readonly unreadOrders: readonly Entity[];

  constructor(
    private readonly around: Omit<OrderSurroundings, 'patients'>,
    desk: Desk,
  ) {
    const patients = around.scope.entities.filter(({ kind }) => kind === 'patient');
    this.patients = new Map(patients.map((entity) => [entity, readPatient(entity, desk)] as const));
    this.orders = workOrders({ ...around, patients: this.patients }, desk);
    this.unreadOrders = around.scope.entities.filter(({ kind, give }) => kind === 'give' && !give);
  }

  /** Reports what stands out in the orders, one by one and together. */
  scrutinise(desk: Desk): void {
    const reporterOf = (order: WorkedOrder) => new Reporter(order.entity.block, desk);
    for (const order of this.allOrders) {
      if (order.state === 'complete') scrutiniseOrder(order, this.scene(order), reporterOf(order));
    }
    for (const patient of this.allPatients) {
      const scene = this.scene(patient);
      if (scene.withheld || scene.orders.length === 0) continue;
      const end = endOfOrders(scene.orders);
      const course = courseOf(scene, end.gt(TWO_DAYS) ? end : TWO_DAYS);
      scrutinisePatient(scene, reporterOf, course?.ok ? course : null);
    }
  }

  get allPatients(): readonly WorkedPatient[] {
    return [...this.patients.values()];
  }

  get allOrders(): readonly WorkedOrder[] {
    return [...this.orders.values()];
  }

  patient(entity: Entity): WorkedPatient | null {
    return this.patients.get(entity) ?? null;
  }

  order(entity: Entity): WorkedOrder | null {
    return this.orders.get(entity) ?? null;
  }

  /** One for each patient, whichever of his orders is asked about. */
  scene(about: WorkedPatient | WorkedOrder): OrderScene {
    const patient = 'facts' in about ? about : about.patient;
    const known = patient && this.scenes.get(patient);
    if (known) return known;
    const among = { orders: this.allOrders, unreadOrders: this.unreadOrders };
    const scene = sceneOf(about, among, this.around.policy);
    if (patient) this.scenes.set(patient, scene);
    return scene;
  }
}
