//! Writes a drawing as SVG: presentation attributes only, so that browsers, converters and the typesetter
//! show it alike; no script, no style sheet, nothing from elsewhere.

use crate::drawing::*;
use crate::geometry::{Bounds, Point, at};
use crate::metrics::FAMILY;
use crate::text::{INDEX_DROP, INDEX_SIZE, Level, POWER_RISE, Run};
use std::fmt::Write;

/// Blank space around the drawing.
const MARGIN: f64 = 10.0;

/// The window on the drawing: everything, with a margin.
pub(crate) fn window(drawing: &Drawing) -> Bounds {
    let b = drawing.bounds().grown(MARGIN);
    Bounds { low: at(b.low.x.floor(), b.low.y.floor()), high: at(b.high.x.ceil(), b.high.y.ceil()) }
}

/// The SVG of a drawing. `prefix` stands before every id.
pub(crate) fn write(drawing: &Drawing, title: &str, description: &str, prefix: &str) -> String {
    let view = window(drawing);
    let mut out = String::with_capacity(1200 + drawing.items.len() * 160);
    out.push_str("<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"");
    numbers(&mut out, &[view.low.x, view.low.y, view.width(), view.height()]);
    attribute(&mut out, "\" width=\"", view.width());
    attribute(&mut out, "\" height=\"", view.height());
    let _ = write!(out, "\" role=\"img\" aria-labelledby=\"{prefix}title {prefix}desc\" class=\"figure\">");
    let _ = write!(out, "<title id=\"{prefix}title\">");
    escape(&mut out, title);
    let _ = write!(out, "</title><desc id=\"{prefix}desc\">");
    escape(&mut out, description);
    let _ = write!(out, "</desc><g font-family=\"{FAMILY}\" fill=\"none\" stroke-linecap=\"round\" ");
    out.push_str("stroke-linejoin=\"round\" xml:space=\"preserve\">");
    let mut opened = std::collections::BTreeSet::new();
    let mut current: Option<&str> = None;
    for item in &drawing.items {
        if current != Some(item.group.as_str()) {
            if current.is_some() {
                out.push_str("</g>");
            }
            open(&mut out, &item.group, prefix, opened.insert(item.group.as_str()));
            current = Some(&item.group);
        }
        write_item(&mut out, item);
    }
    if current.is_some() {
        out.push_str("</g>");
    }
    out.push_str("</g></svg>\n");
    out
}

/// A group; only its first piece carries the id, every piece the tie.
fn open(out: &mut String, group: &str, prefix: &str, first: bool) {
    let class = group.split('-').next().unwrap_or(group);
    if first {
        let _ = write!(out, "<g id=\"{prefix}{group}\" class=\"{class}\"");
    } else {
        let _ = write!(out, "<g class=\"{class}\"");
    }
    if group != class {
        let _ = write!(out, " data-tie=\"{group}\"");
    }
    out.push('>');
}

fn write_item(out: &mut String, item: &Item) {
    match &item.mark {
        Mark::Line { from, to } => line(out, *from, *to, item.pen),
        Mark::Arrow { from, to, head: Head::Filled } => {
            let u = (*to - *from).unit();
            line(out, *from, *to - u * (HEAD_LONG - 2.0), item.pen);
            path(out, &head(*from, *to, HEAD_LONG), true);
            let _ = write!(out, "\" fill=\"{}\"/>", item.pen.colour);
        }
        Mark::Arrow { from, to, head: Head::Open } => {
            line(out, *from, *to, item.pen);
            barb(out, *from, *to, item.pen);
        }
        Mark::DoubleArrow { from, to } => {
            line(out, *from, *to, item.pen);
            barb(out, *from, *to, item.pen);
            barb(out, *from, *to - (*to - *from).unit() * 7.0, item.pen);
        }
        Mark::Box { centre, u, half_width, half_height, round, fill } => {
            let turn = -u.angle().to_degrees();
            attribute(out, "<rect x=\"", centre.x - half_width);
            attribute(out, "\" y=\"", centre.y - half_height);
            attribute(out, "\" width=\"", half_width * 2.0);
            attribute(out, "\" height=\"", half_height * 2.0);
            if *round > 0.0 {
                attribute(out, "\" rx=\"", *round);
            }
            if turn.abs() > 0.001 {
                out.push_str("\" transform=\"rotate(");
                numbers(out, &[turn, centre.x, centre.y]);
                out.push(')');
            }
            fill_and_stroke(out, *fill, item.pen);
        }
        Mark::Circle { centre, radius, fill } => {
            attribute(out, "<circle cx=\"", centre.x);
            attribute(out, "\" cy=\"", centre.y);
            attribute(out, "\" r=\"", *radius);
            fill_and_stroke(out, *fill, item.pen);
        }
        Mark::Path { points, fill } => {
            path(out, points, fill.is_some());
            fill_and_stroke(out, *fill, item.pen);
        }
        Mark::Arc { centre, radius, start, end } => {
            let (a, b) =
                (*centre + Point::towards(*start) * *radius, *centre + Point::towards(*end) * *radius);
            out.push_str("<path d=\"M");
            numbers(out, &[a.x, a.y]);
            out.push('A');
            numbers(out, &[*radius, *radius]);
            let large = u8::from((end - start).abs() > std::f64::consts::PI);
            let sweep = u8::from(end < start);
            let _ = write!(out, " 0 {large} {sweep} ");
            numbers(out, &[b.x, b.y]);
            fill_and_stroke(out, None, item.pen);
        }
        Mark::Hatch { from, to, side } => {
            let run = *to - *from;
            let (u, length) = (run.unit(), run.length());
            let strokes = ((length - 2.0) / 9.0).floor().clamp(1.0, 400.0);
            let mut reached = 0.0;
            out.push_str("<path d=\"");
            while reached < strokes {
                let top = *from + u * (length * (reached + 0.9) / strokes);
                let foot = top + *side * HATCH - u * (HATCH * 0.75).min(length * 0.9 / strokes);
                out.push('M');
                numbers(out, &[top.x, top.y]);
                out.push('L');
                numbers(out, &[foot.x, foot.y]);
                reached += 1.0;
            }
            fill_and_stroke(out, None, item.pen);
        }
        Mark::Label(label) => write_label(out, label),
    }
}

fn write_label(out: &mut String, label: &Label) {
    attribute(out, "<text x=\"", label.at.x);
    attribute(out, "\" y=\"", label.at.y);
    attribute(out, "\" font-size=\"", label.size);
    match label.anchor {
        Anchor::Start => {}
        Anchor::Middle => out.push_str("\" text-anchor=\"middle"),
        Anchor::End => out.push_str("\" text-anchor=\"end"),
    }
    if label.turn.abs() > 1e-6 {
        out.push_str("\" transform=\"rotate(");
        numbers(out, &[-label.turn.to_degrees(), label.at.x, label.at.y]);
        out.push(')');
    }
    let _ = write!(out, "\" fill=\"{INK}\">");
    let mut drop = 0.0;
    for Run { text, italic, level } in &label.text.runs {
        let wanted = match level {
            Level::On => 0.0,
            Level::Below => INDEX_DROP * label.size,
            Level::Above => -POWER_RISE * label.size,
        };
        out.push_str("<tspan");
        if *italic {
            out.push_str(" font-style=\"italic\"");
        }
        if *level != Level::On {
            attribute(out, " font-size=\"", label.size * INDEX_SIZE);
            out.push('"');
        }
        if (wanted - drop).abs() > 0.001 {
            attribute(out, " dy=\"", wanted - drop);
            out.push('"');
            drop = wanted;
        }
        out.push('>');
        escape(out, text);
        out.push_str("</tspan>");
    }
    out.push_str("</text>");
}

fn line(out: &mut String, from: Point, to: Point, pen: Pen) {
    attribute(out, "<line x1=\"", from.x);
    attribute(out, "\" y1=\"", from.y);
    attribute(out, "\" x2=\"", to.x);
    attribute(out, "\" y2=\"", to.y);
    stroke(out, pen);
}

/// The two strokes of an open head.
fn barb(out: &mut String, from: Point, to: Point, pen: Pen) {
    let solid = Pen { dash: None, ..pen };
    if let [tip, left, right] = head(from, to, HEAD_LONG - 1.0).as_slice() {
        path(out, &[*left, *tip, *right], false);
        fill_and_stroke(out, None, solid);
    }
}

/// The start of a path element, its `d` still open.
fn path(out: &mut String, points: &[Point], closed: bool) {
    out.push_str("<path d=\"");
    for (i, p) in points.iter().enumerate() {
        out.push(if i == 0 { 'M' } else { 'L' });
        numbers(out, &[p.x, p.y]);
    }
    if closed {
        out.push('Z');
    }
}

fn fill_and_stroke(out: &mut String, fill: Option<&str>, pen: Pen) {
    if let Some(fill) = fill {
        let _ = write!(out, "\" fill=\"{fill}");
    }
    stroke(out, pen);
}

fn stroke(out: &mut String, pen: Pen) {
    let _ = write!(out, "\" stroke=\"{}", pen.colour);
    attribute(out, "\" stroke-width=\"", pen.width);
    if let Some(dash) = pen.dash {
        let _ = write!(out, "\" stroke-dasharray=\"{dash}");
    }
    out.push_str("\"/>");
}

fn attribute(out: &mut String, before: &str, value: f64) {
    out.push_str(before);
    number(out, value);
}

fn numbers(out: &mut String, values: &[f64]) {
    for (i, v) in values.iter().enumerate() {
        if i > 0 {
            out.push(' ');
        }
        number(out, *v);
    }
}

/// At most two decimals, no trailing noughts, never "−0"; what is not finite becomes 0.
pub(crate) fn number(out: &mut String, value: f64) {
    let hundredths = if value.is_finite() { (value * 100.0).round().clamp(-1e12, 1e12) as i64 } else { 0 };
    if hundredths < 0 {
        out.push('-');
    }
    let size = hundredths.unsigned_abs();
    let _ = write!(out, "{}", size / 100);
    match size % 100 {
        0 => {}
        part if part % 10 == 0 => {
            let _ = write!(out, ".{}", part / 10);
        }
        part => {
            let _ = write!(out, ".{part:02}");
        }
    }
}

/// Text that is safe between tags and in attributes; characters that XML forbids are dropped.
fn escape(out: &mut String, text: &str) {
    for c in text.chars() {
        match c {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\t' | '\n' | '\r' => out.push(' '),
            c if c.is_control() || matches!(c, '\u{fffe}' | '\u{ffff}') => {}
            c => out.push(c),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_are_short() {
        let show = |v: f64| {
            let mut s = String::new();
            number(&mut s, v);
            s
        };
        assert_eq!(
            [show(1.0), show(-0.001), show(2.5), show(-3.456789), show(7.05)],
            ["1", "0", "2.5", "-3.46", "7.05"]
        );
        assert_eq!(show(f64::NAN), "0");
    }

    #[test]
    fn text_is_escaped() {
        let mut s = String::new();
        escape(&mut s, "a < b & \"c\"\u{0}\n");
        assert_eq!(s, "a &lt; b &amp; &quot;c&quot; ");
    }
}
