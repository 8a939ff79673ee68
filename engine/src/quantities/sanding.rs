//! Rows of sand to add: how much for a share of clay by what the tests say, and how far that may be off.

use super::tested_soil::path_of;
use crate::earth::soil;
use crate::house::{House, Ingredient, Sanding};
use crate::row::Rows;
use crate::units::Ratio;

pub(super) fn walk(house: &House, rows: &mut Rows) {
    for sanding in &house.sandings {
        let ingredients = house.earth.iter().flat_map(|earth| &earth.ingredients);
        let named = |name: &str| ingredients.clone().find(|ingredient| ingredient.name == name);
        if let (Some(soil), Some(sand)) = (named(&sanding.soil), named(&sanding.sand)) {
            one(sanding, (soil, sand), rows);
        }
    }
}

fn one(sanding: &Sanding, (soil, sand): (&Ingredient, &Ingredient), rows: &mut Rows) {
    let path = |noun: &str| sanding.path(noun);
    let name = sanding.name.replace('-', " ");
    let title = |words: &str| {
        format!("{words} {} to add to {} for {name}", sand.name.replace('-', " "), soil.name.replace('-', " "))
    };
    let wanted = rows.known(format!("clay wanted in {name}, by dry mass"), &sanding.clay);
    let tested = |ingredient: &Ingredient| ["clay", "clay-error"].map(|noun| path_of(&ingredient.name, noun));
    let of_sand = match &sanding.sand_clay {
        Some([clay, error]) => {
            rows.known(format!("clay in the sand of {name}, by dry mass"), clay);
            rows.known(format!("how far the clay in the sand of {name} may be off"), error);
            [clay.path.clone(), error.path.clone()]
        }
        None => tested(sand),
    };
    let of_soil = tested(soil);
    let shares = [&of_soil, &of_sand].map(|pair| pair.each_ref().map(|path| rows.value::<Ratio>(path)));
    let [[Some(soil_clay), Some(soil_error)], [Some(sand_clay), Some(sand_error)]] = shares else { return };
    if soil_clay <= wanted || sand_clay >= wanted {
        let (rich, rich_path) = if soil_clay <= wanted { (soil_clay, &of_soil[0]) } else { (sand_clay, &of_sand[0]) };
        let lacking =
            soil::clay_lacking(wanted, rich).from("wanted clay", path("clay")).from("soil clay", rich_path.as_str());
        let words = "clay wanted beyond what is there, which no sand brings (take another soil or another sand): no";
        rows.add(path("lacking"), title(words), lacking);
        return;
    }
    let dry = soil::sand_to_add(soil_clay, sand_clay, wanted)
        .from("soil clay", of_soil[0].as_str())
        .from("sand clay", of_sand[0].as_str())
        .from("wanted clay", path("clay"));
    let dry = rows.add(path("dry"), title("dry mass, for each dry mass of soil, of"), dry);
    let error = soil::sand_error(dry, soil_error, sand_error, wanted, sand_clay)
        .from("sand", path("dry"))
        .from("soil error", of_soil[1].as_str())
        .from("sand error", of_sand[1].as_str())
        .from("wanted clay", path("clay"))
        .from("sand clay", of_sand[0].as_str());
    let error =
        rows.add(path("error"), title("how far the dry mass may be off, by what is not known of the clay, of"), error);
    for (noun, side, word) in [("low", -1.0, "least"), ("high", 1.0, "greatest")] {
        let within = soil::sand_within(dry, error, side).from("sand", path("dry")).from("error", path("error"));
        rows.add(path(noun), title(&format!("{word} dry mass, for each dry mass of soil, of")), within);
    }
    let buckets = soil::sand_buckets(dry, soil.loose_density(), sand.loose_density())
        .from("sand", path("dry"))
        .from("soil density", soil.loose_density_path())
        .from("sand density", sand.loose_density_path());
    rows.add(path("buckets"), title("buckets, for each bucket of soil, of"), buckets);
}
