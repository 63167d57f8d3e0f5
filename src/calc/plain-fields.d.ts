export default function plainFields(source: string): string;
