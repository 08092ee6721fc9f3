package wording

// sums are words for all bands together, folded.
const sums = "total totals totale totales totaux sum summe gesamt insgesamt alle all overall somme suma tutti todo todos tout tous"

// bandWords are the phrases of labels: English, German, French, Spanish,
// Italian. From memory: general usage, no source. Max and min alone are not
// among them: "max 320" is as likely the highest load itself.
var bandWords = []struct {
	item byte
	list []string
}{
	{isBelow, []string{
		"under", "below", "less than", "smaller than", "lower than", "lt", "lte", "at most", "no more than", "not more than", "not over", "not exceeding",
		"unter", "unterhalb", "unterhalb von", "kleiner", "kleiner als", "kleiner gleich", "weniger als", "hochstens", "nicht mehr als", "nicht uber",
		"moins de", "inferieur a", "inferieure a", "sous", "au plus", "au maximum", "pas plus de", "en dessous de", "au-dessous de", "inferieur ou egal a",
		"menos de", "inferior a", "bajo", "por debajo de", "debajo de", "menor de", "menor que", "menor a", "como maximo", "no mas de", "menor o igual a",
		"meno di", "inferiore a", "sotto", "sotto i", "al di sotto di", "minore di", "al massimo", "non piu di", "minore o uguale a",
	}},
	{isUpTo, []string{"up to", "upto", "up to and including", "bis", "bis zu", "bis unter", "jusqu'a", "jusqu a", "jusqu'au", "hasta", "fino a", "sino a", "fino ai", "till", "until", "through"}},
	{isAbove, []string{
		"over", "above", "more than", "greater than", "exceeding", "larger than", "gt", "gte", "beyond", "in excess of",
		"uber", "ueber", "oberhalb", "oberhalb von", "mehr als", "grosser", "grosser als", "groesser", "groesser als", "grosser gleich", "hoher als",
		"plus de", "plus que", "superieur a", "superieure a", "au-dessus de", "au dessus de", "au-dela de", "depassant", "sup a", "superieur ou egal a",
		"mas de", "mas que", "superior a", "mayor de", "mayor que", "mayor a", "por encima de", "encima de", "mayor o igual a",
		"oltre", "oltre i", "piu di", "superiore a", "sopra", "sopra i", "al di sopra di", "maggiore di", "maggiore o uguale a",
		"at least", "not less than", "no less than", "mindestens", "au moins", "al menos", "como minimo", "almeno",
	}},
	{isAtLeast, []string{"from", "ab", "a partir de", "des", "desde", "a partire da", "da", "starting at", "starting from"}},
	{isFrom, []string{"von", "vom", "de", "du", "dal", "dai"}},
	{isTo, []string{"to", "a", "al", "au", "ai", "fino al"}},
	{isBetween, []string{"between", "zwischen", "entre", "tra", "fra"}},
	{isAnd, []string{"and", "und", "et", "y", "e", "ed"}},
	{isUp, []string{
		"and more", "and over", "and above", "and up", "and upwards", "or more", "or over", "or above", "up", "upwards", "plus", "or greater", "or higher", "and higher",
		"und mehr", "und daruber", "und darueber", "oder mehr", "und hoher", "und hoeher", "aufwarts",
		"et plus", "et au-dela", "et au dela", "ou plus", "et au-dessus", "y mas", "o mas", "en adelante", "y superior", "o superior", "e oltre", "ed oltre", "e piu", "o piu", "in su", "in poi",
	}},
	{isDown, []string{
		"and less", "and below", "and under", "or less", "or below", "or under", "and down", "und weniger", "oder weniger", "und darunter", "oder darunter",
		"et moins", "ou moins", "y menos", "o menos", "y inferior", "o inferior", "e meno", "o meno",
	}},
	{isInfinity, []string{"max", "maximum", "maximal", "inf", "infinity", "infinite", "unendlich", "infini", "infinito", "open", "offen", "ouvert", "abierto", "aperto"}},
	{isRated, []string{
		"of rated load", "of the rated load", "rated load", "of rated capacity", "of rated", "of swl", "swl", "of capacity", "of nominal load", "rl", "of rl",
		"der nennlast", "nennlast", "von nennlast", "der tragfahigkeit", "der tragfaehigkeit", "de la charge nominale", "de charge nominale", "charge nominale", "de la capacite nominale", "de la capacite", "de la cn",
		"de la carga nominal", "de carga nominal", "carga nominal", "de la capacidad nominal", "de la capacidad", "della portata nominale", "della portata", "portata nominale", "del carico nominale", "carico nominale",
	}},
	{isNoise, []string{
		"x", "load", "loads", "load range", "load band", "platform load", "last", "lasten", "plattformlast", "korblast", "charge", "charges", "carga", "cargas", "carico", "carichi",
		"weight", "gewicht", "poids", "peso", "band", "lastband", "lastbereich", "lastklasse", "bereich", "im bereich", "klasse", "range", "in range", "in the range", "class", "bin", "bucket",
		"plage", "bande", "tranche", "classe", "gamme", "rango", "banda", "clase", "intervalo", "intervallo", "intervalle", "fascia", "campo", "in", "at", "bei", "im", "in band", "in load band", "in bereich",
	}},
	{isLead, []string{
		"h", "hr", "hrs", "hour", "hours", "hours in", "hours at", "time", "time in", "time at", "std", "stunden", "stunden bei", "zeit", "zeit bei", "betriebsstunden", "betriebsstunden bei",
		"heures", "heures a", "temps", "temps a", "horas", "horas a", "tiempo", "tiempo a", "ore", "ore a", "tempo", "tempo a", "share", "share in", "anteil", "anteil bei",
	}},
}
