/** How a policy file is called, wherever it lies. By itself, for who needs no more of the service. */
export const POLICY_FILE = 'infusion-policy.json';
