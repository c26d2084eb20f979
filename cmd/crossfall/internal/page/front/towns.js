// Latitudes of some towns, degrees, to the nearest tenth: near enough for the sun and
// the seasons. From memory of the usual atlases.
export const towns = Object.entries({
  Aberdeen: 57.1, Aberystwyth: 52.4, Bangor: 53.2, Belfast: 54.6, Birmingham: 52.5, Brighton: 50.8, Bristol: 51.5, Cambridge: 52.2, Cardiff: 51.5, Carlisle: 54.9,
  Cork: 51.9, Derry: 55.0, Dublin: 53.3, Dundee: 56.5, Edinburgh: 56.0, Exeter: 50.7, Galway: 53.3, Glasgow: 55.9, Hereford: 52.1, Inverness: 57.5,
  Leeds: 53.8, Leicester: 52.6, Limerick: 52.7, Lincoln: 53.2, Liverpool: 53.4, London: 51.5, Manchester: 53.5, Newcastle: 55.0, Norwich: 52.6, Nottingham: 53.0,
  Oxford: 51.8, Penzance: 50.1, Plymouth: 50.4, Portsmouth: 50.8, Preston: 53.8, Sheffield: 53.4, Shrewsbury: 52.7, Southampton: 50.9, Swansea: 51.6, York: 54.0,
  Amsterdam: 52.4, Athens: 38.0, Barcelona: 41.4, Berlin: 52.5, Bergen: 60.4, Bilbao: 43.3, Bologna: 44.5, Bordeaux: 44.8, Brussels: 50.9, Budapest: 47.5,
  Copenhagen: 55.7, Florence: 43.8, Geneva: 46.2, Graz: 47.1, Hamburg: 53.6, Helsinki: 60.2, Krakow: 50.1, Lisbon: 38.7, Ljubljana: 46.1, Lyon: 45.8,
  Madrid: 40.4, Milan: 45.5, Munich: 48.1, Nantes: 47.2, Oslo: 59.9, Paris: 48.9, Porto: 41.1, Prague: 50.1, Rome: 41.9, Stockholm: 59.3,
  Turin: 45.1, Utrecht: 52.1, Vienna: 48.2, Warsaw: 52.2, Zagreb: 45.8, Zurich: 47.4,
  Atlanta: 33.7, Boston: 42.4, Buffalo: 42.9, Calgary: 51.0, Chicago: 41.9, Denver: 39.7, Halifax: 44.6, Minneapolis: 45.0, Montreal: 45.5, 'New York': 40.7,
  Ottawa: 45.4, Philadelphia: 40.0, Pittsburgh: 40.4, 'Portland, Maine': 43.7, 'Portland, Oregon': 45.5, 'San Francisco': 37.8, Seattle: 47.6, Toronto: 43.7, Vancouver: 49.3, Washington: 38.9,
  Adelaide: -34.9, Auckland: -36.8, Canberra: -35.3, 'Cape Town': -33.9, Christchurch: -43.5, Dunedin: -45.9, Hobart: -42.9, Melbourne: -37.8, Perth: -32.0, Sydney: -33.9, Wellington: -41.3,
  Sapporo: 43.1, Tokyo: 35.7, Kyoto: 35.0,
}).sort(([a], [b]) => (a < b ? -1 : 1));
