//! The page's types are those of this program.

use std::path::Path;

use ts_rs::Config;

use super::*;

/// One type of the page, with what is said of it.
fn one<T: TS>(text: &mut String, config: &Config) {
    text.push('\n');
    if let Some(docs) = T::docs() {
        text.push_str(&docs);
        text.push('\n');
    }
    text.push_str("export ");
    text.push_str(&T::decl(config));
    text.push('\n');
}

fn all() -> String {
    let config = Config::default();
    let mut text = String::from("// Made from app/src/serve/wire.rs; its test says how to make it anew.\n");
    one::<Look>(&mut text, &config);
    one::<Change>(&mut text, &config);
    one::<Frame>(&mut text, &config);
    one::<Row>(&mut text, &config);
    one::<Check>(&mut text, &config);
    one::<Problem>(&mut text, &config);
    one::<Picture>(&mut text, &config);
    one::<Handle>(&mut text, &config);
    one::<Field>(&mut text, &config);
    one::<Table>(&mut text, &config);
    one::<Study>(&mut text, &config);
    one::<Found>(&mut text, &config);
    one::<Offer>(&mut text, &config);
    one::<Order>(&mut text, &config);
    one::<Reason>(&mut text, &config);
    one::<Beside>(&mut text, &config);
    one::<Differs>(&mut text, &config);
    one::<Event>(&mut text, &config);
    one::<Listed>(&mut text, &config);
    one::<BuildFile>(&mut text, &config);
    one::<Open>(&mut text, &config);
    one::<Kept>(&mut text, &config);
    text
}

#[test]
fn the_types_of_the_page_are_those_of_the_program() {
    let file = Path::new(env!("CARGO_MANIFEST_DIR")).join("../ui/src/wire.ts");
    let text = all();
    if std::env::var_os("LOAMWRIGHT_BLESS").is_some() {
        std::fs::create_dir_all(file.parent().unwrap()).unwrap();
        std::fs::write(&file, &text).unwrap();
    }
    let written = std::fs::read_to_string(&file).unwrap_or_default();
    assert_eq!(written, text, "ui/src/wire.ts is behind; write it with LOAMWRIGHT_BLESS=1");
}
