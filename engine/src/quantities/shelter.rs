//! Rows of the weather cover and of the platforms from which the upper lifts are laid.

use super::line::turned;
use super::need::Need;
use super::uneven::{self, sizes};
use crate::house::{COVER_SHEET, House, PLATFORM_BOARD, SANDBAG, TRESTLE};
use crate::row::Rows;
use crate::units::{Area, Length};
use crate::yard;

pub(super) fn walk(house: &House, rows: &mut Rows) -> Vec<Need> {
    let mut needs = cover(house, rows);
    needs.extend(platform(house, rows));
    let bought = house.bought();
    needs.retain(|need| bought.contains(&need.good));
    needs
}

fn cover(house: &House, rows: &mut Rows) -> Vec<Need> {
    let cover = &house.cover;
    let lap = rows.known("how far the cover hangs over each face", &cover.lap);
    let spacing = rows.known("from one batten under the cover to the next", &cover.battens);
    let length = rows.value("wall.top-length").unwrap_or(Length::ZERO);
    let (top, top_path) = uneven::top_thickness(house, rows);
    let width = yard::cover_width(top, lap).from("top thickness", top_path).from("lap", "wall.cover.lap");
    let width = rows.add("wall.cover.width", "width of the cover, over the top and down both faces", width);
    let area = yard::cover_area(length, width).from("length", "wall.top-length").from("width", "wall.cover.width");
    let area = rows.add("wall.cover.area", "cover of the wall's top, before sheets overlap", area);
    let mut sheet_rows = ["wall.cover.area".to_owned(), String::new()];
    if let Some([sheet_length, sheet_width]) = &cover.sheet {
        let overlap = rows.known("how far one sheet of the cover lies over the next", &cover.overlap);
        let sheet_length = rows.known("length of a sheet of the cover", sheet_length);
        let sheet_width = rows.known("width of a sheet of the cover", sheet_width);
        let sheets = yard::cover_sheets(length, width, sheet_length, sheet_width, overlap)
            .from("length", "wall.top-length")
            .from("width", "wall.cover.width")
            .from("sheet length", "wall.cover.sheet.length")
            .from("sheet width", "wall.cover.sheet.width")
            .from("overlap", "wall.cover.overlap");
        rows.add("wall.cover.sheets", "sheets of the cover", sheets);
        sheet_rows[1] = "wall.cover.sheets".to_owned();
    }
    let battens =
        yard::battens(length, spacing).from("length", "wall.top-length").from("spacing", "wall.cover.battens");
    rows.add("wall.cover.batten-count", "battens under the cover", battens);
    let mut needs = vec![Need::of(COVER_SHEET, sheet_rows)];
    needs.extend(gust(house, area, rows));
    needs
}

/// What a gust lifts, and what holds it down; nothing when no gust is written.
fn gust(house: &House, area: Area, rows: &mut Rows) -> Option<Need> {
    let cover = &house.cover;
    let gust = rows.known("strongest gust that the cover must stand", cover.gust.as_ref()?);
    let air = rows.known("density of the air", &cover.air);
    let lift = rows.known("suction on a loose sheet for each pressure of the gust", &cover.lift);
    let safety = rows.known("safety of the ballast", &cover.safety);
    let weight = rows.known("mass of the sheet of the cover on each area", &cover.weight);
    let bag = rows.known("mass of a filled bag", &cover.bag);
    let pressure = yard::gust_pressure(gust, air).from("gust", "weather.gust").from("air", "wall.cover.air");
    let pressure = rows.add("wall.cover.pressure", "pressure of the gust", pressure);
    let uplift = yard::uplift(pressure, lift, area)
        .from("pressure", "wall.cover.pressure")
        .from("coefficient", "wall.cover.lift")
        .from("area", "wall.cover.area");
    let uplift = rows.add("wall.cover.uplift", "force with which the gust lifts the cover", uplift);
    let ballast = yard::ballast(uplift, safety, weight, area)
        .from("uplift", "wall.cover.uplift")
        .from("safety", "wall.cover.safety")
        .from("weight", "wall.cover.weight")
        .from("area", "wall.cover.area");
    let ballast = rows.add("wall.cover.ballast", "ballast that holds the cover, or what ties hold instead", ballast);
    let bags = yard::bags(ballast, bag).from("ballast", "wall.cover.ballast").from("bag", "wall.cover.bag");
    rows.add("wall.cover.bags", "filled bags that hold the cover", bags);
    Some(Need::of(SANDBAG, ["wall.cover.bags".to_owned()]))
}

fn platform(house: &House, rows: &mut Rows) -> Vec<Need> {
    let (wall, platform) = (&house.wall, &house.platform);
    let above = rows.known("height of work above which one stands on a platform", &platform.above);
    let mut is_needed = false;
    let is_stripped = house.is_stripped(platform.gap.value);
    let topsoil = if is_stripped { house.site.strip.topsoil.value } else { Length::ZERO };
    for lift in &wall.lifts {
        let name = &lift.name;
        let height = yard::above_ground(lift.top.value, house.ground.value, topsoil)
            .from("top", lift.top.path.as_str())
            .from("ground outside", "ground.outside");
        let height = if is_stripped { height.from("topsoil", "site.topsoil") } else { height.without("topsoil") };
        let path = lift.path("above-ground");
        let height = rows.add(path.as_str(), format!("top of {name} above the ground beside the wall"), height);
        if height > above {
            let stand =
                yard::platform_height(height, above).from("above ground", path).from("above", "wall.platform.above");
            rows.add(lift.path("platform"), format!("height of the platform for {name}"), stand);
            is_needed = true;
        }
    }
    if !is_needed {
        return Vec::new();
    }
    let spacing = rows.known("from one trestle to the next", &platform.spacing);
    let width = rows.known("width of the platform", &platform.width);
    let gap = rows.known("gap between the face and the platform", &platform.gap);
    let board_length = rows.known("length of a board of the platform", &platform.board[0]);
    let board_width = rows.known("width of a board of the platform", &platform.board[1]);
    let (thickness, thickness_path) = sizes(house, rows)[0];
    let line = Length::m(wall.line.length());
    let turning = wall.line.turning();
    let outside = yard::length_outside(line, thickness, gap, width, turning);
    let inside = yard::length_inside(line, thickness, gap, width, turning);
    let [inside, outside] = [("inside", inside), ("outside", outside)].map(|(word, length)| {
        let length = length
            .from("line length", "wall.length")
            .from("thickness", thickness_path)
            .from("gap", "wall.platform.gap")
            .from("width", "wall.platform.width");
        let length = turned(length, house, rows);
        rows.add(format!("wall.platform.{word}"), format!("length of a platform all along the {word}"), length)
    });
    let trestles = yard::trestles(inside, outside, spacing, u64::from(!wall.line.is_closed()))
        .from("inside", "wall.platform.inside")
        .from("outside", "wall.platform.outside")
        .from("spacing", "wall.platform.spacing");
    rows.add("wall.platform.trestles", "trestles for a platform all along, inside and outside", trestles);
    let boards = yard::boards(inside, outside, width, board_length, board_width)
        .from("inside", "wall.platform.inside")
        .from("outside", "wall.platform.outside")
        .from("width", "wall.platform.width")
        .from("board length", "wall.platform.board.length")
        .from("board width", "wall.platform.board.width");
    rows.add("wall.platform.boards", "boards of a platform all along, inside and outside", boards);
    vec![
        Need::of(TRESTLE, ["wall.platform.trestles".to_owned()]),
        Need::of(PLATFORM_BOARD, ["wall.platform.boards".to_owned()]),
    ]
}
