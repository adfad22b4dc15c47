/** The patients and orders of one scope, worked out. */
import { decimal } from '../../engine/index.ts';
import type { Lookups } from '../lookups.ts';
import type { Task, Worker } from '../memo.ts';
import type { Entity } from '../model.ts';
import { scrutiniseOrder, scrutinisePatient } from '../order-checks/index.ts';
import type { WorkedOrder, WorkedPatient } from '../order-model.ts';
import { type Desk, Reporter } from '../reporter.ts';
import { workOrders } from './binder.ts';
import { readPatient } from './patients.ts';
import { byPatient, courseOf, endOfOrders, type OrderScene, type OrdersByPatient, sceneOf } from './scene.ts';

/** h: the longest that limits of the serum sodium look at. */
const TWO_DAYS = decimal(48);

export class Bedside implements Pick<Lookups, 'patients' | 'orders' | 'scene'> {
  readonly patients: ReadonlyMap<Entity, WorkedPatient>;
  readonly orders: ReadonlyMap<Entity, WorkedOrder>;
  readonly allPatients: readonly WorkedPatient[];
  readonly allOrders: readonly WorkedOrder[];
  readonly unreadOrders: readonly Entity[];
  /** What the questions about the scope draw on. */
  readonly around: Lookups;
  private readonly byPatient: OrdersByPatient;
  private readonly scenes = new Map<WorkedPatient, OrderScene>();

  constructor(
    before: Omit<Lookups, 'patients' | 'orders' | 'scene'>,
    private readonly worker: Worker,
    desk: Desk,
  ) {
    const { entities } = before.scope;
    const scene = (about: WorkedPatient | WorkedOrder) => this.scene(about);
    const fluids: Lookups = { ...before, patients: new Map(), orders: new Map(), scene };
    const patients = entities.filter(({ kind }) => kind === 'patient');
    this.patients = new Map(patients.map((entity) => [entity, worker.do(PATIENT, entity, fluids, desk)] as const));
    this.orders = workOrders({ ...fluids, patients: this.patients }, worker, desk);
    this.allPatients = [...this.patients.values()];
    this.allOrders = [...this.orders.values()];
    this.byPatient = byPatient(this.allOrders);
    this.unreadOrders = entities.filter(({ kind, give }) => kind === 'give' && !give);
    this.around = { ...before, patients: this.patients, orders: this.orders, scene };
  }

  /** Reports what stands out in the orders, one by one and together. */
  scrutinise(desk: Desk): void {
    for (const { entity, state } of this.allOrders) {
      if (state === 'complete') this.worker.do(ORDER_SCRUTINY, entity, this.around, desk);
    }
    for (const { entity } of this.allPatients) this.worker.do(PATIENT_SCRUTINY, entity, this.around, desk);
  }

  /** One for each patient, whichever of his orders is asked about. */
  scene(about: WorkedPatient | WorkedOrder): OrderScene {
    const patient = 'facts' in about ? about : about.patient;
    const known = patient && this.scenes.get(patient);
    if (known) return known;
    const scene = sceneOf(about, this.byPatient, this.unreadOrders, this.around.policy);
    if (patient) this.scenes.set(patient, scene);
    return scene;
  }
}

const PATIENT: Task<Entity, WorkedPatient> = {
  kind: 'patient',
  work: (entity, _, desk) => readPatient(entity, desk),
};

const ORDER_SCRUTINY: Task<Entity, void> = {
  kind: 'order scrutiny',
  work(entity, { orders, scene }, desk) {
    const order = orders.get(entity);
    if (order) scrutiniseOrder(order, scene(order), new Reporter(entity.block, desk));
  },
};

const PATIENT_SCRUTINY: Task<Entity, void> = {
  kind: 'patient scrutiny',
  work(entity, { patients, scene: sceneAbout }, desk) {
    const patient = patients.get(entity);
    const scene = patient && sceneAbout(patient);
    if (!scene || scene.withheld || scene.orders.length === 0) return;
    const course = () => {
      const end = endOfOrders(scene.orders);
      const found = courseOf(scene, end.gt(TWO_DAYS) ? end : TWO_DAYS);
      return found?.ok ? found : null;
    };
    scrutinisePatient(scene, (order) => new Reporter(order.entity.block, desk), course);
  },
};
