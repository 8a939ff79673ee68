//! The tables of people and days.

use jiff::civil::Date;

use super::reader::Table;
use super::source::Written;
use crate::units::{Kind, Volume};

/// `[crew]`
#[derive(Clone, Debug, Default)]
pub struct Crew {
    /// Lead builders.
    pub leads: Option<Written<u64>>,
    /// Helpers.
    pub helpers: Option<Written<u64>>,
    /// Learners.
    pub learners: Option<Written<u64>>,
    /// Cob that one person places in a day.
    pub placing: Option<Written<Volume>>,
}

/// `[dates]`
#[derive(Clone, Debug, Default)]
pub struct Dates {
    /// First day of the course.
    pub start: Option<Written<Date>>,
    /// Last day of the course.
    pub course_over: Option<Written<Date>>,
    /// Day by which the house keeps the weather out.
    pub weather_tight: Option<Written<Date>>,
    /// Day by which it can be used.
    pub ready_for_use: Option<Written<Date>>,
}

pub(super) fn crew(mut table: Table<'_, '_>) -> Crew {
    let read = Crew {
        leads: table.count("leads"),
        helpers: table.count("helpers"),
        learners: table.count("learners"),
        placing: table.quantity("placing", Kind::Volume),
    };
    table.finish();
    read
}

pub(super) fn dates(mut table: Table<'_, '_>) -> Dates {
    let read = Dates {
        start: table.date("start"),
        course_over: table.date("course-over"),
        weather_tight: table.date("weather-tight"),
        ready_for_use: table.date("ready-for-use"),
    };
    table.finish();
    read
}
