// Package coating reckons paint: films wet and dry, litres to buy, when the
// air lets it be put on, how parts are mixed, when the next coat goes on and
// when the work can be handled.
//
// Films in µm, areas in m² (lengths of shapes in mm), litres, °C, per cent.
// Sources: WMO8 (Magnus and psychrometer, Sonntag 1990), ISO8502-4 (3 °C),
// ISO3233 (volume solids), ISO19840 and SSPC-PA2 (acceptance, from memory),
// ISO8501-1 (preparation grades, from memory), TRADE for drying hours.
//
// It cannot see oil, salt or loose rust under a film, nor what the maker of
// the paint in hand says: his sheet comes first.
package coating
