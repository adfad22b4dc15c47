/** What stands out in an order, and in the orders of a patient together, once they are worked out. */
import type { WorkedOrder } from '../order-model.ts';
import type { Course, OrderScene } from '../orders/scene.ts';
import type { Reporter } from '../reporter.ts';
import { calciumCeftriaxone } from './ceftriaxone.ts';
import { undiluted } from './concentrate.ts';
import { electrolyteRate } from './electrolyte-rate.ts';
import { glucoseRate, glucoseTogether } from './glucose.ts';
import { hypotonicMaintenance } from './maintenance.ts';
import { potassium, potassiumTogether } from './potassium.ts';
import { freeWaterToLowSodium, sodiumChlorideLoad } from './sodium-and-water.ts';
import { sodiumCourse } from './sodium-course.ts';
import { haemolysis, hypertonicPeripheral } from './strength.ts';

/** One complete order of the scene. */
export function scrutiniseOrder(order: WorkedOrder, scene: OrderScene, report: Reporter): void {
  const { perMl } = order;
  if (!perMl) return;
  const concentrate = undiluted(order, perMl, scene, report);
  haemolysis(order, perMl, scene, report);
  if (!concentrate) hypertonicPeripheral(order, perMl, scene, report);
  potassium(order, perMl, scene, report, concentrate);
  glucoseRate(order, scene, report);
  electrolyteRate(order, perMl, scene, report);
  hypotonicMaintenance(order, perMl, scene, report);
}

/**
 * What the orders of the scene's patient do together. Each may stand in another block, so each has its own reporter;
 * `course` gives null where no serum sodium can be predicted.
 */
export function scrutinisePatient(
  scene: OrderScene,
  reporterOf: (order: WorkedOrder) => Reporter,
  course: () => Course | null,
): void {
  if (!scene.patient) return;
  potassiumTogether(scene, reporterOf);
  glucoseTogether(scene, reporterOf);
  freeWaterToLowSodium(scene, reporterOf);
  sodiumChlorideLoad(scene, reporterOf);
  calciumCeftriaxone(scene, reporterOf);
  sodiumCourse(scene, course, reporterOf);
}
