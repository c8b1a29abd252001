// Package picture draws what people would rather look at than read: the board of
// a shift, an item's year, the department's month.
//
// A picture is made for a phone held in the hand outdoors: 1080 pixels wide, no
// text under 28 of them, light on a dark ground. What a colour says is said by a
// shape and a word too. Each picture has a text for those who cannot see it.
//
// Board, Year and Month are plain data. Laying one out gives a page, a list of
// shapes and texts, which is what tests look at; painting turns the page into a
// PNG file.
package picture
