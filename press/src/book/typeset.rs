//! Turns files in memory into a PDF; the only place that knows the typesetter.
//!
//! It sees nothing but the files handed over and the shipped faces: no disk, no clock, no network. The same files
//! give the same bytes.

use std::collections::BTreeMap;
use std::sync::LazyLock;

use typst::diag::{FileError, FileResult, SourceDiagnostic};
use typst::foundations::{Bytes, Datetime, Duration};
use typst::syntax::{DiagSpan, FileId, RootedPath, Source, VirtualPath, VirtualRoot};
use typst::text::{Font, FontBook};
use typst::utils::LazyHash;
use typst::{Library, LibraryExt, World, WorldExt};
use typst_layout::PagedDocument;
use typst_pdf::PdfOptions;

use crate::fonts::Face;

/// A typeset book.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Typeset {
    /// The PDF file.
    pub pdf: Vec<u8>,
    /// How many pages it has.
    pub pages: usize,
    /// What the typesetter found odd but could live with, each with its place; empty for a sound book.
    pub remarks: Vec<String>,
}

/// Typesets `main`, one of `files` (path from the root such as `/book.typ`, content). The file `/style.typ` is always
/// there unless `files` bring their own.
///
/// # Errors
/// One text with every fault the typesetter found, a line each: path, line, column, message.
pub fn typeset(files: &[(&str, &[u8])], main: &str) -> Result<Typeset, String> {
    let desk = Desk::laid(files, main)?;
    let compiled = typst::compile::<PagedDocument>(&desk);
    // What it kept of the layout would lie beside the pages while they are printed, and with every book ever set.
    typst::comemo::evict(0);
    let told = |faults: &[SourceDiagnostic]| -> Vec<String> { faults.iter().map(|fault| desk.told(fault)).collect() };
    let printed = compiled
        .output
        .and_then(|document| {
            let pdf = typst_pdf::pdf(&document, &PdfOptions::default())?;
            Ok((pdf, document.pages().len()))
        })
        .map_err(|faults| told(&faults).join("\n"));
    typst::comemo::evict(0);
    let (pdf, pages) = printed?;
    Ok(Typeset { pdf, pages, remarks: told(&compiled.warnings) })
}

/// All that the typesetter may see.
struct Desk {
    files: BTreeMap<String, Bytes>,
    main: FileId,
}

impl Desk {
    fn laid(files: &[(&str, &[u8])], main: &str) -> Result<Desk, String> {
        let mut laid = BTreeMap::new();
        laid.insert("/style.typ".to_owned(), Bytes::new(super::STYLE.as_bytes()));
        for (path, content) in files {
            laid.insert(rooted(path)?, Bytes::new(content.to_vec()));
        }
        let path = VirtualPath::new(main).map_err(|fault| format!("{main}: {fault}"))?;
        Ok(Desk { files: laid, main: RootedPath::new(VirtualRoot::Project, path).intern() })
    }

    /// A fault or remark as one line: where it is, what it says, what may help.
    fn told(&self, fault: &SourceDiagnostic) -> String {
        let mut line = format!("{}{}", self.place(fault.span), fault.message);
        if let Some(call) = fault.trace.first() {
            let caller = self.place(call.span.into());
            line.push_str(&format!(" (reached from {})", caller.trim_end_matches([':', ' '])));
        }
        for hint in &fault.hints {
            line.push_str(&format!("; {}", hint.v));
        }
        line
    }

    /// "/book.typ:12:5: ", or nothing for what has no place.
    fn place(&self, span: DiagSpan) -> String {
        let Some(id) = span.id() else {
            return String::new();
        };
        let path = id.get().vpath().get_with_slash();
        let position =
            self.source(id).ok().and_then(|source| source.lines().byte_to_line_column(self.range(span)?.start));
        match position {
            Some((line, column)) => format!("{path}:{}:{}: ", line + 1, column + 1),
            None => format!("{path}: "),
        }
    }
}

fn rooted(path: &str) -> Result<String, String> {
    match VirtualPath::new(path) {
        Ok(path) => Ok(path.into_with_slash().to_string()),
        Err(fault) => Err(format!("{path}: {fault}")),
    }
}

static LIBRARY: LazyLock<LazyHash<Library>> = LazyLock::new(|| LazyHash::new(Library::default()));

static FONTS: LazyLock<Vec<Font>> =
    LazyLock::new(|| Face::ALL.iter().flat_map(|face| Font::iter(Bytes::new(face.bytes()))).collect());

static BOOK: LazyLock<LazyHash<FontBook>> = LazyLock::new(|| LazyHash::new(FontBook::from_fonts(FONTS.iter())));

impl World for Desk {
    fn library(&self) -> &LazyHash<Library> {
        &LIBRARY
    }

    fn book(&self) -> &LazyHash<FontBook> {
        &BOOK
    }

    fn main(&self) -> FileId {
        self.main
    }

    fn source(&self, id: FileId) -> FileResult<Source> {
        let text = String::from_utf8(self.file(id)?.to_vec()).map_err(|_| FileError::InvalidUtf8)?;
        Ok(Source::new(id, text))
    }

    fn file(&self, id: FileId) -> FileResult<Bytes> {
        let path = id.get().vpath();
        self.files
            .get(path.get_with_slash())
            .cloned()
            .ok_or_else(|| FileError::NotFound(path.get_without_slash().into()))
    }

    fn font(&self, index: usize) -> Option<Font> {
        FONTS.get(index).cloned()
    }

    /// None: a book's date is part of its data, so that the same data give the same bytes.
    fn today(&self, _offset: Option<Duration>) -> Option<Datetime> {
        None
    }
}
