/** The entries of a FHIR Bundle under addresses that come from what they say, so that the same note gives the same text. */
import { type Json, jsonText } from '../../render/exact-json.ts';

/** Anything to a UUID, always the same one. */
export type Uuid = (content: string) => string;

/** In the order in which they are told. */
export type ResourceType = 'MedicationRequest' | 'OperationOutcome' | 'Observation' | 'Medication';
const ORDER: readonly ResourceType[] = ['MedicationRequest', 'OperationOutcome', 'Observation', 'Medication'];

export type Resource = { readonly resourceType: ResourceType } & { readonly [key: string]: Json | undefined };

export class Entries {
  private readonly entries = new Map<string, Resource>();

  /** `place`: the note and where it lies, which tell two patients of the same weight apart. */
  constructor(
    private readonly place: string,
    private readonly uuid: Uuid,
  ) {}

  /** Of no patient: a medication that is the same in two notes is the same. A reference to it. */
  shared(resource: Resource): Json {
    return this.put(resource, '');
  }

  /** Of this note alone. A reference to it. */
  own(resource: Resource): Json {
    return this.put(resource, this.place);
  }

  /** Within one type in the order in which they were put in: what others refer to before these. */
  bundle(): Json {
    const entry = ORDER.flatMap((type) =>
      [...this.entries]
        .filter(([, { resourceType }]) => resourceType === type)
        .map(([fullUrl, resource]) => ({ fullUrl, resource })),
    );
    return { resourceType: 'Bundle', type: 'collection', entry };
  }

  private put(resource: Resource, place: string): Json {
    const reference = `urn:uuid:${this.uuid(`${place}\n${jsonText(resource)}`)}`;
    this.entries.set(reference, resource);
    return { reference };
  }
}
