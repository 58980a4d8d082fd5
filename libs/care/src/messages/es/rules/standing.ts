/** What stands under every result. */
export const STANDING: Readonly<Record<string, string>> = {
  'Advice to a trained lead, who may override it with a recorded reason. Its clocks are rules of practice, not promises; first aid stabilises and does not restore. Local codes and trained people come first.':
    'Consejos para una persona responsable con formación, que puede decidir otra cosa si deja constancia del motivo. Los plazos son reglas prácticas, no promesas; los primeros auxilios estabilizan y no restauran. Las normas locales y las personas con formación van primero.',
};
