package wording

import "ratchetmark/internal/record"

// The words below are general vocabulary of the trade in English, German,
// French, Spanish and Italian, from memory.

// kindWords are words for kinds of machine.
var kindWords = []sorts[record.Kind]{
	{record.Scissor, "", "scissor;scissors;scissorlift;schere;*scheren*;ciseaux;ciseau;tijera;tijeras;forbice;forbici;pantografo;pantograph"},
	{record.Boom, "", "boom;booms;*boomlift*;*gelenk*;*teleskoparbeit*;*teleskopbühne*;*teleskopsteiger*;teleskop;knickarm;*articul*;*articol*;*telescop*;cherry picker;bras;brazo;braccio;spider;fleche"},
	{record.Mast, "vertical personnel lift", "mast;masts;*mastbühne*;*mastlift*;*mastarbeit*;vertikalmast;*vertikallift*;mat vertical;mat;mastil;albero;mast lift;push around"},
	{record.Other, "other;others;sonstige;sonstiges;andere;anderes;autre;autres;otro;otra;otros;altro;altra;altri", ""},
}

// holderWords are words for hands that a machine can be in.
var holderWords = []sorts[record.Holder]{
	{record.Depot, "off hire;hire depot;hire yard;rental depot;rental yard;mietpark;mietstation;dépôt de location;parc de location;depósito de alquiler;deposito noleggio;at depot;available;verfügbar;frei;disponible;disponibile;parc",
		"depot;depots;yard;stock;warehouse;storage;lager;lagerplatz;hof;*betriebshof*;bauhof;entrepôt;magasin;almacén;deposito;magazzino;parque;piazzale;base;branch;niederlassung;agence;sucursal;filiale;in stock"},
	{record.Hire, "on hire;hired out;rented out;on rent;vermietet;in miete;im einsatz;en location;en alquiler;a noleggio;in noleggio;customer site",
		"hire;hired;hirer;rental;rent;rented;rentals;lease;leased;*miete*;*vermiet*;verleih;location;loué;louée;locataire;alquiler;alquilado;alquilada;arriendo;renta;noleggio;noleggiato;noleggiata;nolo;customer;kunde;client;cliente;on site;baustelle;chantier;obra;cantiere"},
	{record.Transit, "",
		"transit;transport;transports;transportation;transported;in transit;haulage;haulier;hauler;delivery;collection;shipping;shipment;freight;truck;lorry;carrier;*spedition*;spediteur;fracht;unterwegs;überführung;anlieferung;abholung;lieferung;transporteur;livraison;acheminement;en route;camion;transporte;transportista;envío;entrega;recogida;tránsito;camión;trasporto;trasportatore;transito;consegna;ritiro;spedizione;in viaggio"},
	{record.Workshop, "", "workshop;service;servicing;repair;repairs;maintenance;garage;werkstatt;wartung;reparatur;instandsetzung;instandhaltung;atelier;réparation;entretien;taller;reparación;mantenimiento;officina;riparazione;manutenzione;inspection;prüfung;*werkstatt*"},
}

// eventWords are words for what a machine logs.
var eventWords = []sorts[record.EventKind]{
	{record.OverloadAlarm, "", "*overload*;over load;*überlast*;surcharge;surcharges;sobrecarga;sobrecargas;sovraccarico;sovraccarichi"},
	{record.TiltAlarm, "", "tilt;tilted;tilting;*neigung*;schieflage;schräglage;inclinaison;dévers;inclinación;desnivel;inclinazione;out of level;slope alarm;incline alarm"},
	{record.PowerOn, "on;ein;start;started;startup;avvio;arranque;conexión;encendido;accensione;démarrage",
		"power on;powered on;switched on;turned on;key on;ignition on;start up;power up;eingeschaltet;einschalten;einschaltung;zündung ein;gestartet;mise sous tension;mise en marche;démarrage;contact mis;allumage;encendido;encendida;puesta en marcha;arranque;llave on;accensione;acceso;accesa;avvio;messa in tensione"},
	{record.PowerOff, "off;aus;stop;stopped;shutdown;apagado;desconexión;spento;spegnimento;arrêt;parada",
		"power off;powered off;switched off;turned off;key off;ignition off;shut down;shutdown;power down;ausgeschaltet;ausschalten;ausschaltung;abgeschaltet;zündung aus;mise hors tension;coupure du contact;arrêt;apagado;apagada;desconexión;spegnimento;spento;spenta;messa fuori tensione"},
	{record.PeakRise, "new maximum;new highest load;neue höchstlast;neuer höchstwert;nouveau maximum;nuevo máximo;nuovo massimo",
		"peak;peak rise;new peak;*spitzenlast*;*spitzenwert*;lastspitze;neue spitze;höchstlast;höchstwert;pic;pic de charge;charge maximale;pico;carga máxima;picco;carico massimo;peak load;highest load;maximum load"},
}

// endings say that something logged was over, folded.
const endings = "cleared clear ended end reset acknowledged quittiert beendet ende aufgehoben geloscht acquitte acquittee fin terminee termine finalizada finalizado borrada reconocida terminato cessato fine ripristino resettato"
