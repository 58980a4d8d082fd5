/** Leather, skin, bone, horn and plant fibre. */
export const LEATHER_AND_ORGANIC: Readonly<Record<string, string>> = {
  'Fully tanned leather is padded out and air dried under control; what must bend is bent as it dries.':
    'El cuero bien curtido se rellena y se seca al aire bajo control; lo que debe doblarse se va doblando mientras se seca.',
  'Never warm leather.': 'Nunca caliente el cuero.',
  'Pad it out to its shape; flex what must stay flexible as it dries. It may stiffen and darken.':
    'Rellénelo hasta su forma; mueva lo que debe seguir flexible mientras se seca. Puede endurecerse y oscurecerse.',
  'Muddy leather is rinsed first.': 'El cuero con barro se enjuaga primero.',
  'Rinse the mud off leather before it is padded out.': 'Enjuague el barro del cuero antes de rellenarlo.',
  'Leather may be frozen to buy time.': 'El cuero se puede congelar para ganar tiempo.',
  'Fully tanned leather has about two days.': 'El cuero bien curtido tiene unos dos días.',
  'From memory, not verified: 48 h for fully tanned leather.': 'De memoria, sin comprobar: 48 h para el cuero bien curtido.',
  'Alum-tawed and untanned skin is handled as parchment: at once, held by freezing at most.':
    'La piel curtida al alumbre o sin curtir se maneja como el pergamino: de inmediato, y a lo sumo en espera congelada.',
  'It may fall apart: nothing under tension, full support.': 'Puede deshacerse: nada bajo tensión, apoyo completo.',
  'Alum-tawed and untanned skin belongs to a conservator.': 'La piel curtida al alumbre o sin curtir es cosa de un conservador.',
  'Never soak semi-tanned or untanned skin for long.': 'Nunca remoje mucho tiempo la piel semicurtida o sin curtir.',
  'Untanned or alum-tawed skin: keep it flat, cool and supported, ask a conservator.': 'Piel sin curtir o curtida al alumbre: manténgala plana, fresca y apoyada, pregunte a un conservador.',
  'Wet bone and ivory are begun within the day and dried slowly, a conservator being asked.':
    'El hueso y el marfil mojados se empiezan dentro del día y se secan despacio, preguntando a un conservador.',
  'Fast drying cracks bone and ivory: dry them slowly.': 'Secarse rápido agrieta el hueso y el marfil: séquelos despacio.',
  'Horn, baleen and mother-of-pearl are begun within the day as bone is.': 'Cuerno, barba de ballena y nácar se empiezan dentro del día, como el hueso.',
  'From memory, not verified: 24 h for horn, baleen and mother-of-pearl.': 'De memoria, sin comprobar: 24 h para cuerno, barba de ballena y nácar.',
  'Horn, baleen and mother-of-pearl dry slowly, a conservator being asked.': 'Cuerno, barba de ballena y nácar se secan despacio, preguntando a un conservador.',
  'Fast drying cracks it: dry it slowly; baleen may need weights while it dries.': 'Secarse rápido lo agrieta: séquelo despacio; la barba de ballena puede necesitar pesos mientras se seca.',
  'Bone, ivory and horn are never frozen.': 'El hueso, el marfil y el cuerno nunca se congelan.',
  'Never freeze bone, ivory, horn, baleen or shell.': 'Nunca congele hueso, marfil, cuerno, barba de ballena ni concha.',
  'Taxidermy, skins, herbarium sheets, minerals and fossils may carry arsenic, DDT, mercury or asbestos: protection comes first.':
    'Animales disecados, pieles, plantas prensadas, minerales y fósiles pueden tener arsénico, DDT, mercurio o asbesto: la protección va primero.',
  'Never handle collected animals, plants or minerals with bare hands.': 'Nunca toque animales, plantas ni minerales de colección con las manos desnudas.',
  'Old collections were treated with arsenic, DDT and mercury; fills of fossils may hold asbestos.':
    'Las colecciones antiguas se trataron con arsénico, DDT y mercurio; los rellenos de fósiles pueden tener asbesto.',
  'Against old poisons: gloves, a mask, eye protection, an apron.': 'Contra venenos antiguos: guantes, mascarilla, protección para los ojos, delantal.',
  'Our own calibration: the source asks for protection first; the list is ours.': 'Calibración propia: la fuente pide protección primero; la lista es nuestra.',
  'Some minerals dissolve: no water before someone has named them.': 'Algunos minerales se disuelven: nada de agua antes de que alguien los haya identificado.',
  'Never rinse a mineral or fossil that nobody has named.': 'Nunca enjuague un mineral o fósil que nadie ha identificado.',
  'A mineral may dry in the air until someone has named it; it is not frozen.': 'Un mineral puede secarse al aire hasta que alguien lo identifique; no se congela.',
  'Our own calibration: no route in the sources; drying untouched stands behind the referral.':
    'Calibración propia: las fuentes no dan ninguna vía; secar sin tocar queda por detrás de enviarlo a un especialista.',
  'Baskets and plant fibre are supported, reshaped and dried slowly.': 'Las cestas y la fibra vegetal se apoyan, se les devuelve la forma y se secan despacio.',
  'Support it, bring it back to shape, dry it slowly; it may take many hours.': 'Apóyelo, devuélvale la forma, séquelo despacio; puede llevar muchas horas.',
  'Wet plant fibre keeps its shape for about two days.': 'La fibra vegetal mojada conserva su forma unos dos días.',
  'From memory, not verified: 48 h for baskets and plant fibre.': 'De memoria, sin comprobar: 48 h para cestas y fibra vegetal.',
  'No guidance was found for freezing baskets; they are not frozen without advice.': 'No se encontró ninguna guía para congelar cestas; no se congelan sin consejo.',
  'Our own calibration: silence of the sources read as no.': 'Calibración propia: el silencio de las fuentes leído como un no.',
  'Never freeze a basket without advice.': 'Nunca congele una cesta sin consejo.',
};
